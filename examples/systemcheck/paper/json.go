package paper

import (
	"encoding/json"
	"io"

	"example.org/extralow/examples/systemcheck/facts"
	"example.org/extralow/examples/systemcheck/job"
	"example.org/extralow/examples/systemcheck/rules"
	"example.org/extralow/tables"
	"example.org/extralow/tables/cite"
	"example.org/extralow/tables/working"
	"github.com/shopspring/decimal"
)

// format is raised whenever a key of the JSON form changes its meaning or goes.
const format = 1

// report is the JSON form of an inspection. Numbers are strings, exact.
type report struct {
	Format   int          `json:"format"`
	File     string       `json:"file"`
	Job      string       `json:"job"`
	Date     string       `json:"date,omitempty"`
	RuleSet  string       `json:"rules"`
	Passes   bool         `json:"passes"`
	Headline string       `json:"headline"`
	Forbids  []string     `json:"forbids"`
	Counts   counts       `json:"counts"`
	Findings []finding    `json:"findings"`
	Circuits []circuit    `json:"circuits"`
	Volts    []loadVolts  `json:"volts"`
	Audit    audit        `json:"audit"`
	Bank     bank         `json:"bank"`
	Assumed  []string     `json:"assumed,omitempty"`
	Unjudged []string     `json:"unjudged,omitempty"`
	Memory   []Remembered `json:"from_memory"`
	Cautions []string     `json:"cautions"`
}

type counts struct {
	Fails         int `json:"fails"`
	CannotTell    int `json:"cannot_tell"`
	Passes        int `json:"passes"`
	NotApplicable int `json:"not_applicable"`
}

type finding struct {
	ID          string           `json:"id"`
	Title       string           `json:"title"`
	Grade       rules.Grade      `json:"grade"`
	Where       string           `json:"where"`
	Path        string           `json:"path"`
	Verdict     working.Verdict  `json:"verdict"`
	Demand      *decimal.Decimal `json:"demand,omitempty"`
	Limit       *decimal.Decimal `json:"limit,omitempty"`
	Margin      *decimal.Decimal `json:"margin,omitempty"`
	Utilisation *decimal.Decimal `json:"utilisation,omitempty"`
	Unit        string           `json:"unit,omitempty"`
	Asks        string           `json:"asks,omitempty"`
	Allows      string           `json:"allows,omitempty"`
	Missing     string           `json:"missing,omitempty"`
	Silent      string           `json:"silent,omitempty"`
	Case        string           `json:"case,omitempty"`
	Danger      string           `json:"danger,omitempty"`
	Remedy      string           `json:"remedy,omitempty"`
	RuleSet     string           `json:"rules,omitempty"`
	Source      cite.Source      `json:"source,omitzero"`
	Confidence  cite.Confidence  `json:"confidence"`
	Working     working.Working  `json:"working,omitempty"`
}

type circuit struct {
	Name       string          `json:"name"`
	From       string          `json:"from"`
	To         string          `json:"to"`
	LengthM    decimal.Decimal `json:"length_m"`
	Size       tables.Size     `json:"size"`
	Cables     decimal.Decimal `json:"parallel_cables"`
	Devices    []device        `json:"devices"`
	DesignA    decimal.Decimal `json:"design_a"`
	AmpacityA  decimal.Decimal `json:"ampacity_a"`
	ConductorC decimal.Decimal `json:"conductor_c"`
	DropV      decimal.Decimal `json:"drop_v"`
	FaultA     decimal.Decimal `json:"greatest_fault_a"`
	WorstCase  string          `json:"case"`
}

// device is one that a circuit has at one of its ends.
type device struct {
	At      string          `json:"at"`
	Family  string          `json:"family"`
	RatingA decimal.Decimal `json:"rating_a"`
}

// loadVolts is what reaches a load in each state that runs it.
type loadVolts struct {
	Load   string       `json:"load"`
	States []stateVolts `json:"states"`
}

type stateVolts struct {
	State string          `json:"state"`
	DropV decimal.Decimal `json:"drop_v"` // along the whole path
	LeftV decimal.Decimal `json:"left_v"`
}

// JSON writes the report for other programs, with all of its working.
func JSON(out io.Writer, file string, r Report) error {
	doc := report{
		Format: format, Headline: r.Headline(), Forbids: r.Forbids(),
		File: file, Job: r.Job.Name, Date: r.Job.Date, RuleSet: r.Set, Passes: r.Passes(), Assumed: r.Assumed, Unjudged: r.Unjudged, Cautions: cautions,
		Audit: jsonAudit(r.Audit), Bank: jsonBank(r),
		Counts: counts{r.Count(working.Fails), r.Count(working.CannotTell), r.Count(working.Passes), r.Count(working.NotApplicable)},
	}
	doc.Memory, _, _ = r.Remembered()
	for _, f := range r.Findings {
		doc.Findings = append(doc.Findings, jsonFinding(f))
	}
	for i, c := range r.Circuits {
		doc.Circuits = append(doc.Circuits, jsonCircuit(r.Job.Circuits[i], c))
	}
	for _, l := range r.Volts {
		doc.Volts = append(doc.Volts, jsonVolts(r, l))
	}
	return encode(out, doc)
}

func jsonCircuit(in job.Circuit, c facts.Circuit) circuit {
	one := circuit{
		Name: c.Name, From: in.From, To: in.To, LengthM: in.LengthM, Size: in.Size, Cables: decimal.NewFromInt(1), Devices: []device{},
		DesignA: c.DesignA, AmpacityA: c.AmpacityA, ConductorC: c.ConductorC, DropV: c.DropV, FaultA: c.FaultA, WorstCase: c.Case,
	}
	if in.Cables != nil {
		one.Cables = in.Cables.Count
	}
	for _, end := range []struct {
		at     string
		fitted *job.Device
	}{{in.From, in.Device}, {in.To, in.FarDevice}} {
		if end.fitted != nil {
			one.Devices = append(one.Devices, device{end.at, end.fitted.Family, end.fitted.RatingA})
		}
	}
	return one
}

func jsonVolts(r Report, l facts.LoadVolts) loadVolts {
	one := loadVolts{Load: l.Load, States: []stateVolts{}}
	for i, s := range r.Job.States {
		if l.DropV[i].Valid {
			one.States = append(one.States, stateVolts{s.Name, l.DropV[i].Decimal, l.LeftV[i].Decimal})
		}
	}
	return one
}

// encode writes a document as text that a person can read too.
func encode(out io.Writer, doc any) error {
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(doc)
}

func jsonFinding(f rules.Finding) finding {
	j := finding{
		ID: f.ID, Title: f.Title, Grade: f.Grade, Where: f.Where, Path: f.Path, Verdict: f.Verdict(), Unit: f.Unit, Asks: f.Asks, Allows: f.Allows,
		Missing: f.Missing, Silent: f.Silent, Case: f.Case, RuleSet: f.RuleSet, Source: f.Source,
		Confidence: f.Working.Confidence(), Working: f.Working,
	}
	if v := f.Verdict(); v == working.Passes || v == working.Fails {
		margin := f.Margin()
		j.Demand, j.Limit, j.Margin = &f.Demand, &f.Limit, &margin
		if u, ok := f.Utilisation(); ok {
			j.Utilisation = &u
		}
	}
	if f.Verdict() == working.Fails {
		j.Danger, j.Remedy = f.Danger, f.Remedy
	}
	return j
}
