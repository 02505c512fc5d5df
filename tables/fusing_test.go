package tables_test

import (
	"fmt"
	"testing"

	"example.org/extralow/tables"
	"github.com/stretchr/testify/assert"
)

func ExampleFusingConstant() {
	f, err := tables.FusingConstant("copper")
	fmt.Println(f.Value, f.Unit, f.Source, err)
	// Output:
	// 10244 A/in^1.5 Preece, I = a d^1.5, copper <nil>
}

func TestFusingConstantNotListed(t *testing.T) {
	_, err := tables.FusingConstant("wood")
	assert.ErrorIs(t, err, tables.ErrNotListed)
}
