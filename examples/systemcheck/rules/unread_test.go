package rules_test

import (
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestAJobThatNoReaderMade puts into every field of a small job what no file could
// hold: it is refused with the field's path, and nothing panics.
func TestAJobThatNoReaderMade(t *testing.T) {
	if testing.Short() {
		t.Skip("it judges hundreds of jobs")
	}
	van := func() reflect.Value {
		f, err := os.Open(filepath.Join("..", "job", "testdata", "van.yaml"))
		require.NoError(t, err)
		defer f.Close()
		file, err := job.Read("van.yaml", f)
		require.NoError(t, err)
		j := file.Job()
		return reflect.ValueOf(&j).Elem()
	}
	count := 0
	everyPlace(van(), func(reflect.Value) { count++ })
	require.Greater(t, count, 100)
	for i := range count {
		for _, spoil := range spoils {
			j, at := van(), 0
			said, changed := "", false
			everyPlace(j, func(v reflect.Value) {
				if at++; at-1 == i {
					before := fmt.Sprintf("%#v", v.Interface())
					spoil(v)
					said = before + " made to " + v.Type().String()
					changed = fmt.Sprintf("%#v", v.Interface()) != before
				}
			})
			if !changed {
				continue
			}
			assert.NotPanics(t, func() {
				if _, err := paper.ReportOn(j.Interface().(job.Job)); err != nil {
					assert.NotEmpty(t, working.Inputs(err), "%s: %v", said, err)
				}
			}, said)
		}
	}
	_, err := paper.ReportOn(job.Job{})
	assert.NotEmpty(t, working.Inputs(err))
	_, err = rules.Compare(job.Job{})
	assert.NotEmpty(t, working.Inputs(err))
}

var spoils = []func(reflect.Value){
	func(v reflect.Value) { v.SetZero() },
	func(v reflect.Value) { set(v, decimal.New(-1, 9), "\x1b[2J") },
	func(v reflect.Value) { set(v, decimal.New(1, -12), " ") },
	func(v reflect.Value) { set(v, decimal.New(1, 1_000_000), "no such thing") },
}

func set(v reflect.Value, n decimal.Decimal, text string) {
	switch v.Interface().(type) {
	case decimal.Decimal:
		v.Set(reflect.ValueOf(n))
	case decimal.NullDecimal:
		v.Set(reflect.ValueOf(decimal.NewNullDecimal(n)))
	case string:
		v.SetString(text)
	}
}

// everyPlace visits what a job holds, sections and lists as well as what is in them.
func everyPlace(v reflect.Value, visit func(reflect.Value)) {
	switch v.Interface().(type) {
	case decimal.Decimal, decimal.NullDecimal:
		visit(v)
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				everyPlace(v.Field(i), visit)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			everyPlace(v.Index(i), visit)
		}
		visit(v)
	case reflect.Pointer:
		if !v.IsNil() {
			everyPlace(v.Elem(), visit)
		}
		visit(v)
	default:
		if v.CanSet() {
			visit(v)
		}
	}
}
