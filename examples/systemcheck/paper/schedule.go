package paper

import (
	"fmt"
	"strings"
	"text/tabwriter"

	"example.org/extralow/examples/systemcheck/inspect"
	"example.org/extralow/examples/systemcheck/job"
)

// schedule prints the circuits as a fitter reads them: what each carries, what
// it may carry, what guards it and what it loses.
func (p *page) schedule(r inspect.Report) {
	p.title("Circuit schedule")
	t := tabwriter.NewWriter(p, 0, 0, 1, ' ', tabwriter.AlignRight)
	fmt.Fprintln(t, "circuit\tm\tsize\tI_b\tI_z\tT_c\tdrop\tfault\tdevice\t")
	for i, c := range r.Circuits {
		in := r.Job.Circuits[i]
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t\n", short(c.Name, 22), in.LengthM, in.Size,
			bare(c.DesignA.StringFixed(1), "A"), bare(c.AmpacityA.StringFixed(0), "A"), bare(c.ConductorC.StringFixed(0), "C"),
			bare(c.DropV.StringFixed(2), "V"), bare(c.FaultA.Shift(-3).StringFixed(1), "kA"), devices(in))
	}
	t.Flush()
	p.para(0, "I_b greatest steady current, I_z ampacity as installed, T_c conductor temperature, drop of the run itself at I_b, fault the greatest short-circuit current at its ends; device in amperes at the from end, then the to end.")
}

func bare(value, unit string) string { return value + " " + unit }

func devices(c job.Circuit) string {
	var all []string
	for _, d := range []*job.Device{c.Device, c.FarDevice} {
		if d == nil {
			all = append(all, "-")
		} else {
			all = append(all, d.RatingA.String()+" A")
		}
	}
	return strings.TrimSuffix(strings.Join(all, ", "), ", -")
}

// short cuts a name to a width.
func short(name string, most int) string {
	if r := []rune(name); len(r) > most {
		return string(r[:most-1]) + "."
	}
	return name
}
