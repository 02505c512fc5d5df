package job_test

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"

	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

func openVan() *job.Survey {
	text, err := os.Open("testdata/van.yaml")
	if err != nil {
		panic(err)
	}
	defer text.Close()
	f, err := job.Read("van.yaml", text)
	if err != nil {
		panic(err)
	}
	return f
}

func ExampleRead() {
	f := openVan()
	feed := f.Job().Circuits[1]
	fmt.Println(feed.Name, "from", feed.From, "to", feed.To, feed.LengthM, "m of", feed.Size)
	// Output:
	// house feed from house to board 1.524 m of 16 mm2
}

func ExampleRead_faults() {
	_, err := job.Read("shed.yaml", strings.NewReader("job: shed\nsystem_v: 12 V\nrules: european\ncraft: van\ncoldest_c: -5\n"))
	fmt.Println(err)
	// Output:
	// shed.yaml:1:1: batteries is missing: want a list (every battery, starter battery included)
	// shed.yaml:1:1: loads is missing: want a list (everything that draws current)
	// shed.yaml:1:1: circuits is missing: want a list (every cable run, one line each)
	// shed.yaml:1:1: states is missing: want a list (what runs together, and for how long a day)
	// shed.yaml:1:1: needs is missing: want keys with values (what the customer asks of it)
	// shed.yaml:2:1: system_v is "12 V": want 12 or 24 V; the number alone, the key says V
	// shed.yaml:4:1: craft is "van": want vehicle, trailer or boat
}

func ExampleSurvey_Place() {
	f := openVan()
	err := working.Between("length_m", f.Job().Circuits[1].LengthM, 2, 30)
	err = f.Place(working.In("circuits[1]", err))
	fmt.Println(err)
	var fault *job.Fault
	fmt.Println(errors.As(err, &fault), fault.Line, fault.Text)
	// Output:
	// van.yaml:97:5: circuits[1].length_ft is "5": want 2 to 30 (as length_m it is 1.524)
	// true 97 5
}

func ExampleSurvey_Text() {
	f := openVan()
	text, ok := f.Text("batteries[1].empty_v")
	fmt.Println(text, ok, f.Job().Batteries[1].EmptyV)
	// Output: 12.0 true 12
}

func ExampleSurvey_Stated() {
	at, _ := openVan().Stated("circuits[1].length_m")
	fmt.Println(at.Line, at.Column, at.Key, at.Text)
	// Output: 97 5 circuits[1].length_ft 5
}

func ExampleExplain() {
	var b bytes.Buffer
	if err := job.Explain(&b); err != nil {
		fmt.Println(err)
	}
	_, needs, _ := strings.Cut(b.String(), "\nNEEDS\n")
	needs, _, _ = strings.Cut(needs, "\n\n")
	fmt.Println(needs)
	// Output:
	// autonomy_days: a number from 0.1 to 60 days
	//       days without any charging; of a part of a day the hours count that take
	//       most
	//   parked_days (optional): a number from 0.1 to 365 days
	//       days that it must stand with everything off
	//   refill_h: a number from 0.1 to 200 h
	//       hours of charging that must refill a day's use
}

func ExampleSchema() {
	var b bytes.Buffer
	if err := job.Schema(&b); err != nil {
		fmt.Println(err)
	}
	_, craft, _ := strings.Cut(b.String(), `"craft": `)
	craft, _, _ = strings.Cut(craft, "\n    },")
	fmt.Println(craft)
	// Output:
	// {
	//       "description": "what carries the installation",
	//       "enum": [
	//         "vehicle",
	//         "trailer",
	//         "boat"
	//       ]
}

// A survey is what was stated; the job is what comes of it.
func ExampleSurvey_Job() {
	j := openVan().Job()
	fmt.Println(j.Name, len(j.Circuits))
	// Output:
	// Tool library van 6
}

// A job that a program puts together is judged as a file is.
func ExampleJob_Check() {
	j := openVan().Job()
	j.Circuits[0].LengthM = decimal.Zero
	fmt.Println(j.Check())
	// Output:
	// circuits[0].length_m is "0": want a number from 0.01 to 200 m
}
