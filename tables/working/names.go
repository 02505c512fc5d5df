package working

import (
	"slices"
	"strings"
)

// Name is one entry of the vocabulary: a symbol as the trade writes it, its key
// in JSON and in job files, its unit and what it means.
type Name struct {
	Symbol, Key, Unit, Meaning string
}

// vocabulary is the only place where a symbol is tied to a name and a unit.
// Units: A V Ω mΩ mΩ/m W Wh Ah h s m mm mm² °C % kg N ...; "" is a bare number.
var vocabulary = []Name{
	// conductors
	{"L", "length_m", "m", "one-way length"},
	{"S", "area_mm2", "mm²", "conductor cross-section"},
	{"R_20", "resistance_20c_mohm_per_m", "mΩ/m", "resistance at 20 °C"},
	{"R_ref", "table_resistance_mohm_per_m", "mΩ/m", "resistance in the table"},
	{"T_ref", "table_resistance_c", "°C", "temperature at which the table gives it"},
	{"R_T", "resistance_mohm_per_m", "mΩ/m", "resistance at the conductor's temperature"},
	{"T_0", "zero_resistance_c", "°C", "temperature of zero resistance, as a positive number"},
	{"T_a", "ambient_c", "°C", "ambient temperature"},
	{"T_r", "insulation_c", "°C", "highest conductor temperature of the insulation"},
	{"T_c", "conductor_c", "°C", "conductor temperature"},
	{"I_t", "table_ampacity_a", "A", "ampacity in the table"},
	{"C_a", "ambient_factor", "", "factor for ambient temperature"},
	{"C_g", "grouping_factor", "", "factor for grouping"},
	{"C_e", "engine_space_factor", "", "factor for engine spaces"},
	{"I_c", "cable_ampacity_a", "A", "ampacity of the cable by itself"},
	{"T_t", "terminal_c", "°C", "highest temperature of the terminals"},
	{"I_z", "ampacity_a", "A", "ampacity as installed"},
	{"I", "current_a", "A", "current"},
	{"R_j", "joints_milliohm", "mΩ", "joints and contacts in the loop"},
	{"R", "loop_milliohm", "mΩ", "resistance of the loop, out and back"},
	{"ΔU", "drop_v", "V", "voltage drop"},
	{"ΔU_max", "drop_limit_v", "V", "greatest voltage drop allowed"},
	{"p_max", "drop_limit_percent", "%", "greatest voltage drop allowed, of nominal"},
	{"U_n", "system_v", "V", "nominal voltage"},

	// overcurrent devices
	{"I_b", "design_a", "A", "design current"},
	{"I_n", "rating_a", "A", "rating of the device"},
}

// Find returns the vocabulary's entry for a symbol. A numbered symbol, "I.2",
// is the second of its kind: "current (2)".
func Find(symbol string) (Name, bool) {
	base, number, numbered := strings.Cut(symbol, ".")
	n, ok := bySymbol[base]
	if numbered {
		n.Symbol = symbol
		n.Meaning += " (" + number + ")"
	}
	return n, ok
}

// Vocabulary returns every entry.
func Vocabulary() []Name { return slices.Clone(vocabulary) }

var bySymbol = func() map[string]Name {
	m := make(map[string]Name, len(vocabulary))
	for _, n := range vocabulary {
		m[n.Symbol] = n
	}
	return m
}()
