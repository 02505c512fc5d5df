// Tablebook prints the reference tables of the library, with the source of each
// figure and how sure our copy of it is.
//
//	tablebook [flags] [NAME]
//
// Without a name it lists every table by subject. The exit status is 0, or 2
// where the command line is unusable or the output cannot be written.
package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.org/extralow/tables"
)

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	flags := flag.NewFlagSet("tablebook", flag.ContinueOnError)
	flags.SetOutput(errs)
	asCSV := flags.Bool("csv", false, "print the table as CSV")
	asMarkdown := flags.Bool("markdown", false, "print the table as Markdown")
	weak := flags.Bool("weak", false, "only rows that are not published: confirm them first")
	find := flags.String("find", "", "list the tables with all of these `words`")
	flags.Usage = func() {
		fmt.Fprintln(errs, "tablebook [flags] [NAME]   lists every table, or prints the one named")
		flags.PrintDefaults()
	}
	if err := flags.Parse(args); err != nil {
		if errors.Is(err, flag.ErrHelp) {
			return 0
		}
		return 2
	}
	switch {
	case flags.NArg() > 1:
		return refuse(errs, "one table at a time, and flags before its name")
	case *asCSV && *asMarkdown:
		return refuse(errs, "either -csv or -markdown")
	case flags.NArg() == 0 && (*asCSV || *asMarkdown):
		return refuse(errs, "name the table to print; without flags the program lists them")
	case flags.NArg() == 1 && *find != "":
		return refuse(errs, "-find looks for tables: leave the name out")
	case flags.NArg() == 0:
		return status(list(out, tables.Find(strings.Fields(*find)...), *weak), errs)
	}
	table, err := tables.TableOf(flags.Arg(0))
	if err != nil {
		return status(err, errs)
	}
	if *weak {
		table = table.Weak()
	}
	write := table.WriteText
	if *asCSV {
		write = table.WriteCSV
	}
	if *asMarkdown {
		write = table.WriteMarkdown
	}
	return status(write(out), errs)
}

// list prints the names of tables under their subjects: how many rows each has
// and the weakest word on any of them.
func list(out io.Writer, found []tables.Table, weak bool) error {
	var b strings.Builder
	subject, rows, shown := "", 0, 0
	for _, t := range found {
		if weak {
			t = t.Weak()
		}
		if t.Rows == 0 {
			continue
		}
		if t.Subject != subject {
			subject = t.Subject
			fmt.Fprintf(&b, "%s\n", strings.ToUpper(subject))
		}
		fmt.Fprintf(&b, "  %-29s %4d  %s\n", t.Name, t.Rows, t.Weakest)
		fmt.Fprintf(&b, "      %s\n", t.Title)
		rows, shown = rows+t.Rows, shown+1
	}
	fmt.Fprintf(&b, "Tables: %d. Rows: %d. Behind each name stand its rows and the weakest word on\nany of them.\n", shown, rows)
	b.WriteString("Caution: a design aid. Confirm a figure from memory in its document before you\nrely on it; disconnect and insulate before work; local codes come first.\n")
	_, err := io.WriteString(out, b.String())
	return err
}

func refuse(errs io.Writer, why string) int {
	fmt.Fprintln(errs, "tablebook: "+why)
	return 2
}

// status prints an error, if there is one, and returns the exit status.
func status(err error, errs io.Writer) int {
	if err == nil {
		return 0
	}
	return refuse(errs, err.Error())
}
