package tables

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"example.org/extralow/tables/cite"
)

// Chemistry names what a battery is made of: one of [Chemistries], which match
// exactly. "lead-acid" and "Li-ion" are for batteries of which no more is known.
type Chemistry string

// The names, for [Chemistry.Is]; the wide ones hold for every kind of theirs.
const (
	LeadAcid Chemistry = "lead-acid" // which kind is not said
	Flooded  Chemistry = "lead-acid flooded"
	VRLA     Chemistry = "lead-acid VRLA" // valve-regulated: AGM or gel
	AGM      Chemistry = "lead-acid AGM"
	Gel      Chemistry = "lead-acid gel"
	LiIon    Chemistry = "Li-ion" // which kind is not said
	LiFePO4  Chemistry = "LiFePO4"
	NMC      Chemistry = "NMC"
	NiCd     Chemistry = "NiCd"
	NiMH     Chemistry = "NiMH"
)

type chemistryRow struct {
	name  Chemistry
	wider []Chemistry
}

var chemistries = indexed("chemistry", load("chemistries", func(r *record) chemistryRow {
	r.source()
	row := chemistryRow{name: Chemistry(r.text("chemistry"))}
	for name := range strings.SplitSeq(r.text("wider"), "; ") {
		if name != "" {
			row.wider = append(row.wider, Chemistry(name))
		}
	}
	return row
}), func(r chemistryRow) string { return string(r.name) })

// Chemistries returns the names of battery chemistries.
func Chemistries() []Chemistry {
	var all []Chemistry
	for _, name := range chemistries().names {
		all = append(all, Chemistry(name))
	}
	return all
}

// Check refuses a chemistry that is none of [Chemistries], as an input error of
// that field.
func (c Chemistry) Check(field string) error {
	if _, ok := chemistries().rows[string(c)]; ok {
		return nil
	}
	return unlisted(field, string(c), chemistries().names)
}

// MarshalText writes the name.
func (c Chemistry) MarshalText() ([]byte, error) { return []byte(c), nil }

// UnmarshalText reads one of [Chemistries], or nothing: a chemistry that is not
// stated is for the reader of the whole to refuse.
func (c *Chemistry) UnmarshalText(text []byte) error {
	read := Chemistry(text)
	if read != "" {
		if err := read.Check("chemistry"); err != nil {
			return err
		}
	}
	*c = read
	return nil
}

// kinds returns the chemistry and its wider names, the nearest first; none where
// it is not listed.
func (c Chemistry) kinds() []Chemistry {
	row, err := chemistries().first(string(c))
	if err != nil {
		return nil
	}
	return append([]Chemistry{c}, row.wider...)
}

// Is reports whether the chemistry is of that kind: itself, or a wider name of
// it. "LiFePO4" is [LiIon], and so is "Li-ion" itself.
func (c Chemistry) Is(kind Chemistry) bool { return slices.Contains(c.kinds(), kind) }

// Trait is what a chemistry does or needs that decides how it is installed.
type Trait string

// The traits. Each holds where it asks for care, so that a chemistry that is not
// listed, of which nothing is known, has all of them.
const (
	Gasses             Trait = "gasses"                // gives off hydrogen in service
	Freezes            Trait = "freezes"               // its electrolyte turns to ice when empty
	FlatVoltage        Trait = "flat_voltage"          // its voltage hardly tells its charge
	HarmedByColdCharge Trait = "harmed_by_cold_charge" // for good, by a charge below freezing
	ManagementUnit     Trait = "management_unit"       // wants electronics that guard each cell
	FallsWithRate      Trait = "falls_with_rate"       // has less capacity at a high rate (Peukert)
)

// Traits returns every trait.
func Traits() []Trait {
	return []Trait{Gasses, Freezes, FlatVoltage, HarmedByColdCharge, ManagementUnit, FallsWithRate}
}

var _ = also("trait", Traits, func(t Trait) string { return string(t) })

type traitRow struct {
	chemistry Chemistry
	trait     Trait
	holds     bool
	source    cite.Source
	note      string
}

var traitRows = load("chemistry-traits", func(r *record) traitRow {
	holds := r.text("holds")
	if holds != "yes" && holds != "no" {
		r.fault("holds is %q: want yes or no", holds)
	}
	return traitRow{Chemistry(r.text("chemistry")), Trait(r.text("trait")), holds == "yes", r.source(r.text("chemistry")), r.text("note")}
})

type traitKey struct {
	chemistry Chemistry
	trait     Trait
}

// traits holds the row of each trait of each chemistry, its own or that of the
// nearest wider name. A test holds that none is missing.
var traits = sync.OnceValue(func() map[traitKey]traitRow {
	own := map[traitKey]traitRow{}
	for _, r := range traitRows() {
		own[traitKey{r.chemistry, r.trait}] = r
	}
	all := maps.Clone(own)
	for _, c := range Chemistries() {
		for _, t := range Traits() {
			for _, kind := range slices.Backward(c.kinds()) {
				if r, ok := own[traitKey{kind, t}]; ok {
					all[traitKey{c, t}] = r
				}
			}
		}
	}
	return all
})

// Has reports whether the chemistry has a trait. One that is none of
// [Chemistries] has them all.
func (c Chemistry) Has(t Trait) bool {
	r, ok := traits()[traitKey{c, t}]
	return !ok || r.holds
}

// TraitSource returns who says that the chemistry has a trait or has it not, and
// what is to be said of it.
func (c Chemistry) TraitSource(t Trait) (from cite.Source, note string, err error) {
	if err := c.Check("chemistry"); err != nil {
		return cite.Source{}, "", err
	}
	r, ok := traits()[traitKey{c, t}]
	if !ok {
		return cite.Source{}, "", unlisted("trait", string(t), kinds["trait"]())
	}
	return r.source, r.note, nil
}

// chemistryRows returns the rows of the chemistry's own name or, where the
// table has none that fit, of the nearest wider one.
func chemistryRows[T any](rows []T, c Chemistry, fits func(row T, name string) bool) ([]T, error) {
	if err := c.Check("chemistry"); err != nil {
		return nil, err
	}
	for _, kind := range c.kinds() {
		var all []T
		for _, row := range rows {
			if fits(row, string(kind)) {
				all = append(all, row)
			}
		}
		if len(all) > 0 {
			return all, nil
		}
	}
	return nil, ErrNotListed
}

// everyRow returns the rows of the chemistry's own name and of its wider ones,
// in the order of the table.
func everyRow[T any](rows []T, c Chemistry, what string, nameOf func(T) string) ([]T, error) {
	if err := c.Check("chemistry"); err != nil {
		return nil, err
	}
	var all []T
	for _, row := range rows {
		if c.Is(Chemistry(nameOf(row))) {
			all = append(all, row)
		}
	}
	if len(all) == 0 {
		return nil, fmt.Errorf("%s of %s: %w", what, c, ErrNotListed)
	}
	return all, nil
}
