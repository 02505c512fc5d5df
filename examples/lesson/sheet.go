package main

import (
	"fmt"
	"io"
	"strings"

	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// indent is that of everything under a question's number.
const indent = 4

// para writes text in lines of the page's width.
func para(out io.Writer, text string) {
	for _, line := range working.Wrap(text, 80-indent) {
		fmt.Fprintln(out, strings.Repeat(" ", indent)+line)
	}
}

// sheet prints the questions, and the answers on request.
func sheet(out io.Writer, seed uint64, questions []question, answers bool) {
	fmt.Fprintf(out, "Drill %d: ten questions for 12 V and 24 V installations\n", seed)
	for i, q := range questions {
		fmt.Fprintf(out, "\n%2d. %s\n", i+1, strings.ToUpper(q.subject))
		para(out, q.asks)
		if answers {
			q.solve(out)
		}
	}
	if !answers {
		fmt.Fprintln(out, "\nTables: go run ./examples/tablebook")
		fmt.Fprintf(out, "Answers: go run ./examples/lesson -seed %d -answers\n", seed)
	}
	fmt.Fprintln(out, "\nCaution: a drill is no licence. Work on the real thing with a competent person.")
}

// solve prints the answer, how it comes about, and the usual mistake.
func (q question) solve(out io.Writer) {
	fmt.Fprintln(out)
	for line := range strings.Lines(q.lines.String()) {
		fmt.Fprint(out, strings.Repeat(" ", indent)+line)
	}
	fmt.Fprintln(out)
	para(out, "Answer: "+q.name+" "+q.amount(q.answer)+".")
	para(out, "Usual mistake: "+q.mistake+". That gives "+q.amount(q.wrong)+".")
	para(out, q.harm)
}

// amount writes a value with the unit, marked where it is rounded for show.
func (q question) amount(v decimal.Decimal) string {
	text, rounded := working.Show(v)
	if rounded {
		text = "about " + text
	}
	return text + " " + q.unit
}
