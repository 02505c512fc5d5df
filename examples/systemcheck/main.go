// Systemcheck judges a whole 12 V or 24 V job: cables, devices, bank and
// charging, with the working and the source of every number.
//
//	systemcheck [flags] [FILE]
//
// Without a file it checks the job embedded in it; - is standard input. The exit status is 0 where
// every rule that applies passes, 1 where one fails or cannot be told, and 2
// where the file or the command line is unusable. With -sets it is that of the
// job's own rule set.
package main

import (
	"bytes"
	"cmp"
	_ "embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"strings"

	"example.org/extralow/examples/form"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/paper"
	"example.org/extralow/examples/systemcheck/rules"
)

//go:embed jobs/clinic.yaml
var clinic []byte

func main() { os.Exit(run(os.Args[1:], os.Stdout, os.Stderr)) }

// run is the whole program; it returns the exit status.
func run(args []string, out, errs io.Writer) int {
	errs = shown{errs}
	flags := flag.NewFlagSet("systemcheck", flag.ContinueOnError)
	flags.SetOutput(errs)
	whose := flags.String("working", "", "print the working: all, or that of one rule, as P09, or of one circuit")
	asJSON := flags.Bool("json", false, "print JSON for other programs")
	sets := flags.Bool("sets", false, "judge the job under every rule set, side by side")
	explain := flags.Bool("explain", false, "describe the job file and stop")
	schema := flags.Bool("schema", false, "print the job file's JSON schema and stop")
	list := flags.Bool("rules", false, "list every rule and stop")
	one := flags.String("rule", "", "print what is known about one rule, as P09, and stop")
	flags.Usage = func() {
		fmt.Fprintln(errs, "systemcheck [flags] [FILE]   checks a job file, or the sample inside it\n  FILE is - for standard input")
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
		fmt.Fprintln(errs, "systemcheck: one file at a time")
		return 2
	case *explain:
		return status(job.Explain(out), errs)
	case *schema:
		return status(job.Schema(out), errs)
	case *list:
		return status(rules.List(out), errs)
	case *one != "":
		return status(rules.Show(out, *one), errs)
	}
	name := cmp.Or(form.Printable(flags.Arg(0)), "clinic.yaml (the sample)")
	if name == "-" {
		name = "standard input"
	}
	file, err := read(flags.Args())
	if err != nil {
		return status(err, errs)
	}
	if *sets {
		write := paper.Sets
		if *asJSON {
			write = paper.SetsJSON
		}
		return compare(file, write, out, errs)
	}
	report, err := paper.ReportOn(file.Job())
	if err != nil {
		return status(file.Place(err), errs)
	}
	if *asJSON {
		err = paper.JSON(out, name, report)
	} else {
		err = paper.Text(out, name, report, *whose)
	}
	if err == nil && !report.Passes() {
		return 1
	}
	return status(err, errs)
}

// status prints an error, if there is one, and returns the exit status.
func status(err error, errs io.Writer) int {
	if err == nil {
		return 0
	}
	for line := range strings.Lines(err.Error()) {
		fmt.Fprintln(errs, paper.Hang(strings.TrimSuffix(line, "\n")))
	}
	return 2
}

// compare prints the job under every rule set. The status is that of its own.
func compare(file *job.Survey, write func(io.Writer, string, []rules.SetVerdict) error, out, errs io.Writer) int {
	all, err := rules.Compare(file.Job())
	if err != nil {
		return status(file.Place(err), errs)
	}
	passes, err := paper.Passes(file.Job())
	if err == nil {
		err = write(out, file.Job().Name, all)
	}
	if err == nil && !passes {
		return 1
	}
	return status(file.Place(err), errs)
}

// read reads the job file that was named, or the sample inside the program.
func read(names []string) (*job.Survey, error) {
	if len(names) == 0 {
		return job.Read("clinic.yaml (the sample)", bytes.NewReader(clinic))
	}
	return job.ReadFile(names[0])
}

// shown writes out what a terminal would obey in place of showing it: package flag
// repeats what was typed as it stands.
type shown struct{ io.Writer }

func (s shown) Write(p []byte) (int, error) {
	lines := strings.Split(string(p), "\n")
	for i, line := range lines {
		cells := strings.Split(line, "\t")
		for k := range cells {
			cells[k] = form.Printable(cells[k])
		}
		lines[i] = strings.Join(cells, "\t")
	}
	_, err := io.WriteString(s.Writer, strings.Join(lines, "\n"))
	return len(p), err
}
