package job

import "strings"

// allStates is the end of testdata/van.yaml but for what the customer needs.
const allStates = `states:
  - name: driving
    hours_a_day: 3
    sources: [alternator, converter]
    loads: [crew fridge]
    engine: road
  - name: at a school
    hours_a_day: 6
    loads: [crew fridge, label printer]
  - name: overnight
    hours_a_day: 15
    sources: [hook-up]
    loads: [crew fridge]
`

var mistakes = []mistake{
	// keys
	{"unknown key", "length_m: 4.5", "lenght_m: 4.5", []string{
		`van.yaml:153:5: circuits[5].lenght_m is "4.5": want a known key; nearest: length_m`,
	}},
	{"unknown key, nothing near", "  refill_h: 6", "  refill_h: 6\n  paint: red", []string{
		`van.yaml:179:3: needs.paint is "red": want one of the keys autonomy_days, parked_days, refill_h`,
	}},
	{"unknown key holds a list", "  refill_h: 6", "  refill_h: 6\n  paint: [red]", []string{
		`van.yaml:179:3: needs.paint is a list: want one of the keys autonomy_days, parked_days, refill_h`,
	}},
	{"unknown key not printable", "  refill_h: 6", "  refill_h: 6\n  \"\\e[31m\": red", []string{
		`van.yaml:179:3: needs."\x1b[31m" is "red": want one of the keys autonomy_days, parked_days, refill_h`,
	}},
	{"unknown key of many letters", "  refill_h: 6", "  refill_h: 6\n  " + strings.Repeat("refill", 20) + ": red", []string{
		`van.yaml:179:3: needs."refillrefillrefillrefillrefillrefillrefillrefillrefillrefill..." is "red": want one of the keys autonomy_days, parked_days, refill_h`,
	}},
	{"merge key", "  refill_h: 6", "  refill_h: 6\n  <<: {a: 1}", []string{
		`van.yaml:179:3: needs."<<" is keys with values: want one of the keys autonomy_days, parked_days, refill_h`,
	}},
	{"duplicate key", "rules: european", "rules: european\nrules: european", []string{
		`van.yaml:6:1: rules is "european": want it once; it stands on line 5 already`,
	}},
	{"missing key", "    insulation_c: 90\n    method: B", "    method: B", []string{
		`van.yaml:150:5: circuits[5].insulation_c is missing: want a number from 60 to 250 °C (temperature rating of the insulation)`,
	}},
	{"missing key at the top", "craft: vehicle\n", "", []string{
		`van.yaml:2:1: craft is missing: want vehicle, trailer or boat (what carries the installation)`,
	}},
	{"missing alternative", "      along_in: 6\n", "", []string{
		`van.yaml:107:5: circuits[1].device.along_mm is missing: want along_mm or along_in, a number from 0 to 20000 mm (length of conductor between the source and the device)`,
	}},
	{"missing section", "needs:\n  autonomy_days: 1.5\n  refill_h: 6\n", "", []string{
		`van.yaml:2:1: needs is missing: want keys with values (what the customer asks of it)`,
	}},
	{"both alternatives", "length_ft: 5", "length_ft: 5\n    length_m: 1.5", []string{
		`van.yaml:98:5: circuits[1].length_m is "1.5": want either length_m or length_ft, not both`,
	}},
	{"key is a list", "rules: european", "rules: european\n? [a, b]\n: c", []string{
		`van.yaml:6:3: "a list" is "c": want a plain name as the key`,
	}},
	{"key is marked", "craft: vehicle", "&c craft: vehicle", []string{
		`van.yaml:2:1: craft is missing: want vehicle, trailer or boat (what carries the installation)`,
		`van.yaml:6:1: craft is "vehicle": want a plain name as the key`,
	}},
	{"VA as a key", "power_w: 45", "power_va: 45", []string{
		`van.yaml:65:5: loads[0].power_va is "45": want the key power_w; VA is not W: multiply it by the power factor and give watts`,
	}},
	// YAML
	{"alias of nothing", "fed_at: starter", "fed_at: *s", []string{
		`van.yaml:43:5: line is "max_a: 30": want YAML or JSON that can be read up to here: unknown anchor 's' referenced`,
	}},
	{"anchor", "rules: european", "rules: &r european", []string{
		`van.yaml:5:1: rules is an anchor, &r: want the value alone`,
	}},
	{"anchor and alias", "job: Tool library van\n", "job: &j van\nrules2: *j\n", []string{
		`van.yaml:2:1: job is an anchor, &j: want the value alone`,
		`van.yaml:3:1: rules2 is an alias: want a known key; nearest: rules`,
	}},
	{"alias as a value", "job: Tool library van\ndate: 2031-05-17\nsystem_v: 12\nrules: european\n", "job: &j van\ndate: 2031-05-17\nsystem_v: 12\nrules: *j\n", []string{
		`van.yaml:2:1: job is an anchor, &j: want the value alone`,
		`van.yaml:5:1: rules is an alias, *j: want the value itself`,
	}},
	{"tag", "system_v: 12", "system_v: !!int 12", []string{
		`van.yaml:4:1: system_v is tagged "!!int": want the value alone`,
	}},
	{"second document", "  refill_h: 6\n", "  refill_h: 6\n---\njob: another\n", []string{
		`van.yaml:179:1: file is a second document: want one document, without a further ---`,
	}},
	{"second document is broken", "  refill_h: 6\n", "  refill_h: 6\n---\njob: [\n", []string{
		`van.yaml:180:1: line is "job: [": want YAML or JSON that can be read up to here: did not find expected node content`,
	}},
	{"indented with a tab", "    at: fridge socket", "\tat: fridge socket", []string{
		`van.yaml:64:2: line is "at: fridge socket": want YAML or JSON that can be read up to here: indent with spaces, not with tabs`,
	}},
	{"indented wrongly", "    power_w: 45", "   power_w: 45", []string{
		`van.yaml:65:4: line is "power_w: 45": want YAML or JSON that can be read up to here: did not find expected '-' indicator`,
	}},
	{"indented too far", "    power_w: 45", "     power_w: 45", []string{
		`van.yaml:65:6: line is "power_w: 45": want YAML or JSON that can be read up to here: mapping values are not allowed in this context`,
	}},
	{"no space behind the colon", "craft: vehicle", "craft:vehicle", []string{
		`van.yaml:6:1: line is "craft:vehicle": want YAML or JSON that can be read up to here: could not find expected ':'`,
	}},
	{"list not closed", "sources: [hook-up]", "sources: [hook-up", []string{
		`van.yaml:175:5: line is "loads: [crew fridge]": want YAML or JSON that can be read up to here: did not find expected ',' or ']'`,
	}},
	{"quote not closed", "rules: european", "rules: \"leisure", []string{
		`van.yaml:5:1: line is "rules: \"leisure": want YAML or JSON that can be read up to here: found unexpected end of stream`,
	}},
	// kinds
	{"list for a map", "needs:\n  autonomy_days: 1.5\n  refill_h: 6\n", "needs: [1.5, 6]\n", []string{
		`van.yaml:176:1: needs is a list: want keys with values`,
	}},
	{"text for a map", "needs:\n  autonomy_days: 1.5\n  refill_h: 6\n", "needs: none\n", []string{
		`van.yaml:176:1: needs is "none": want keys with values`,
	}},
	{"nothing for a map", "needs:\n  autonomy_days: 1.5\n  refill_h: 6\n", "needs:\n", []string{
		`van.yaml:176:1: needs is empty: want keys with values`,
	}},
	{"nothing for an optional map", "    device:\n      family: UL 248-15 T 300 V\n      rating_a: 100\n      along_in: 6\n", "    device:\n", []string{
		`van.yaml:107:5: circuits[1].device is empty: want keys with values`,
	}},
	{"map for a list", "sources: [hook-up]", "sources: {hook-up: 1}", []string{
		`van.yaml:174:5: states[2].sources is keys with values: want a list`,
	}},
	{"text for a list", "sources: [hook-up]", "sources: hook-up", []string{
		`van.yaml:174:5: states[2].sources is "hook-up": want a list`,
	}},
	{"text for an entry", "inverters:\n", "inverters:\n  - 1000 W\n", []string{
		`van.yaml:56:5: inverters[0] is "1000 W": want keys with values`,
	}},
	{"list for a number", "system_v: 12", "system_v: [12]", []string{
		`van.yaml:4:1: system_v is a list: want 12 or 24 V`,
	}},
	{"map for a text", "rules: european", "rules: {leisure: 1}", []string{
		`van.yaml:5:1: rules is keys with values: want text`,
	}},
	{"list for a name", "sources: [hook-up]", "sources: [[hook-up]]", []string{
		`van.yaml:174:15: states[2].sources[0] is a list: want text`,
	}},
	{"empty list", allStates, "states: []\n", []string{
		`van.yaml:163:1: states is an empty list: want at least one entry`,
	}},
	// numbers
	{"leading nought", "power_w: 45", "power_w: 045", []string{
		`van.yaml:65:5: loads[0].power_w is "045": want a number from 0.01 to 20000 W; without a leading nought`,
	}},
	{"exponent", "power_w: 45", "power_w: 1e400", []string{
		`van.yaml:65:5: loads[0].power_w is "1e400": want a number from 0.01 to 20000 W; all digits written out, without an exponent`,
	}},
	{"NaN", "power_w: 45", "power_w: NaN", []string{
		`van.yaml:65:5: loads[0].power_w is "NaN": want a number from 0.01 to 20000 W`,
	}},
	{"infinite", "power_w: 45", "power_w: .inf", []string{
		`van.yaml:65:5: loads[0].power_w is ".inf": want a number from 0.01 to 20000 W`,
	}},
	{"underscore", "power_w: 45", "power_w: 1_000", []string{
		`van.yaml:65:5: loads[0].power_w is "1_000": want a number from 0.01 to 20000 W; nothing between the digits`,
	}},
	{"space between digits", "power_w: 45", "power_w: 1 000", []string{
		`van.yaml:65:5: loads[0].power_w is "1 000": want a number from 0.01 to 20000 W; nothing between the digits`,
	}},
	{"hexadecimal", "power_w: 45", "power_w: 0x10", []string{
		`van.yaml:65:5: loads[0].power_w is "0x10": want a number from 0.01 to 20000 W; plain decimal digits`,
	}},
	{"comma", "power_w: 45", "power_w: 1,5", []string{
		`van.yaml:65:5: loads[0].power_w is "1,5": want a number from 0.01 to 20000 W; use a point, not a comma`,
	}},
	{"empty number", "power_w: 45", "power_w:", []string{
		`van.yaml:65:5: loads[0].power_w is empty: want a number from 0.01 to 20000 W, or the key left out`,
	}},
	{"empty required number", "grouped: 3", "grouped:", []string{
		`van.yaml:159:5: circuits[5].grouped is empty: want a whole number from 1 to 60`,
	}},
	{"null", "grouped: 3", "grouped: null", []string{
		`van.yaml:159:5: circuits[5].grouped is "null": want a whole number from 1 to 60`,
	}},
	{"nothing before the point", "power_w: 45", "power_w: .5", []string{
		`van.yaml:65:5: loads[0].power_w is ".5": want a number from 0.01 to 20000 W; digits on both sides of the point`,
	}},
	{"nothing behind the point", "power_w: 45", "power_w: 5.", []string{
		`van.yaml:65:5: loads[0].power_w is "5.": want a number from 0.01 to 20000 W; digits on both sides of the point`,
	}},
	{"two signs", "power_w: 45", "power_w: --5", []string{
		`van.yaml:65:5: loads[0].power_w is "--5": want a number from 0.01 to 20000 W`,
	}},
	{"other digits", "power_w: 45", "power_w: ٤٥", []string{
		`van.yaml:65:5: loads[0].power_w is "٤٥": want a number from 0.01 to 20000 W`,
	}},
	{"two numbers", "power_w: 45", "power_w: 40-50", []string{
		`van.yaml:65:5: loads[0].power_w is "40-50": want a number from 0.01 to 20000 W`,
	}},
	{"fraction", "power_w: 45", "power_w: 1/2", []string{
		`van.yaml:65:5: loads[0].power_w is "1/2": want a number from 0.01 to 20000 W`,
	}},
	{"too many digits", "power_w: 45", "power_w: 45.0000000000000000001", []string{
		`van.yaml:65:5: loads[0].power_w is "45.0000000000000000001": want a number from 0.01 to 20000 W; at most 20 characters`,
	}},
	{"below the range", "length_m: 4.5", "length_m: 0.001", []string{
		`van.yaml:153:5: circuits[5].length_m is "0.001": want a number from 0.01 to 200 m`,
	}},
	{"above the range", "length_m: 4.5", "length_m: 450", []string{
		`van.yaml:153:5: circuits[5].length_m is "450": want a number from 0.01 to 200 m`,
	}},
	{"above the range in feet", "length_ft: 5", "length_ft: 5000", []string{
		`van.yaml:97:5: circuits[1].length_ft is "5000": want a number in ft that makes 0.01 to 200 m, not 1524 m`,
	}},
	{"above the range in °F", "coldest_f: 14", "coldest_f: 104.1", []string{
		`van.yaml:7:1: coldest_f is "104.1": want a number in °F that makes -40 to 40 °C, not 40.0556 °C`,
	}},
	{"not one of the numbers", "system_v: 12", "system_v: 48", []string{
		`van.yaml:4:1: system_v is "48": want 12 or 24 V`,
	}},
	{"unit behind the number", "length_m: 4.5", "length_m: 4.5 m", []string{
		`van.yaml:153:5: circuits[5].length_m is "4.5 m": want a number from 0.01 to 200 m; the number alone, the key says m`,
	}},
	{"US unit behind the number", "length_m: 4.5", "length_m: 4.5 ft", []string{
		`van.yaml:153:5: circuits[5].length_m is "4.5 ft": want a number from 0.01 to 200 m; the number alone in m, or use length_ft`,
	}},
	{"metric unit behind a US number", "length_ft: 5", "length_ft: 5m", []string{
		`van.yaml:97:5: circuits[1].length_ft is "5m": want a number in ft that makes 0.01 to 200 m; the number alone in ft, or use length_m`,
	}},
	{"degree", "ambient_f: 104", "ambient_f: 40 °C", []string{
		`van.yaml:102:5: circuits[1].ambient_f is "40 °C": want a number in °F that makes -40 to 120 °C; the number alone in °F, or use ambient_c`,
	}},
	{"wrong unit", "length_m: 4.5", "length_m: 450 cm", []string{
		`van.yaml:153:5: circuits[5].length_m is "450 cm": want a number from 0.01 to 200 m; the number alone, in m`,
	}},
	{"unit behind a bare number", "grouped: 3", "grouped: 3 pcs", []string{
		`van.yaml:159:5: circuits[5].grouped is "3 pcs": want a whole number from 1 to 60; the number alone`,
	}},
	{"feet in a US key", "length_ft: 5", "length_ft: 5 ft", []string{
		`van.yaml:97:5: circuits[1].length_ft is "5 ft": want a number in ft that makes 0.01 to 200 m; the number alone, the key says ft`,
	}},
	{"VA", "power_w: 45", "power_w: 200 VA", []string{
		`van.yaml:65:5: loads[0].power_w is "200 VA": want a number from 0.01 to 20000 W; VA is not W: multiply it by the power factor and give watts`,
	}},
	{"kVA", "rated_w: 1000", "rated_w: 1kVA", []string{
		`van.yaml:57:5: inverters[0].rated_w is "1kVA": want a number from 1 to 20000 W; VA is not W: multiply it by the power factor and give watts`,
	}},
	{"unit behind a voltage", "system_v: 12", "system_v: 12 V", []string{
		`van.yaml:4:1: system_v is "12 V": want 12 or 24 V; the number alone, the key says V`,
	}},
	// words
	{"unknown word", "chemistry: LiFePO4", "chemistry: LiFePo4", []string{
		`van.yaml:11:5: batteries[0].chemistry is "LiFePo4": want lead-acid flooded, lead-acid AGM, lead-acid gel or LiFePO4; nearest: LiFePO4`,
	}},
	{"unknown word, nothing near", "craft: vehicle", "craft: hovercraft", []string{
		`van.yaml:6:1: craft is "hovercraft": want vehicle, trailer or boat`,
	}},
	{"unknown word that decides what else is needed", "kind: converter", "kind: convertor", []string{
		`van.yaml:41:5: chargers[0].kind is "convertor": want converter or mains; nearest: converter`,
	}},
	{"unknown word for the return", "return: chassis", "return: body", []string{
		`van.yaml:90:5: circuits[0].return is "body": want cable or chassis`,
	}},
	{"yes", "critical: true", "critical: yes", []string{
		`van.yaml:70:5: loads[0].critical is "yes": want true or false`,
	}},
	{"True", "critical: true", "critical: True", []string{
		`van.yaml:70:5: loads[0].critical is "True": want true or false`,
	}},
	{"one", "critical: true", "critical: 1", []string{
		`van.yaml:70:5: loads[0].critical is "1": want true or false`,
	}},
	{"no such day", "date: 2031-05-17", "date: 2031-02-30", []string{
		`van.yaml:3:1: date is "2031-02-30": want a date such as 2031-05-17`,
	}},
	{"date the other way round", "date: 2031-05-17", "date: 17.5.2031", []string{
		`van.yaml:3:1: date is "17.5.2031": want a date such as 2031-05-17`,
	}},
	{"bare mm", "size: 2.5 mm2", "size: 4 mm", []string{
		`van.yaml:154:5: circuits[5].size is "4 mm": want the copper area, such as 2.5 mm2: cable named by a bare mm is named by its outer diameter, and 4 mm has about 1.8 mm2 of copper`,
	}},
	{"bare gauge", "size: AWG 6", "size: 6", []string{
		`van.yaml:115:5: circuits[2].size is "6": want an area such as 16 mm2, or a gauge with its system, AWG 6 or SAE 6 (not the same wire)`,
	}},
	{"empty text", "rules: european", "rules: \"\"", []string{
		`van.yaml:5:1: rules is empty: want text`,
	}},
	{"null for a text", "rules: european", "rules: ~", []string{
		`van.yaml:5:1: rules is "~": want text`,
	}},
	{"space before", "rules: european", "rules: \" leisure\"", []string{
		`van.yaml:5:1: rules is " leisure": want no space before or behind it`,
	}},
	{"two lines", "rules: european", "rules: |\n  leisure\n  work", []string{
		`van.yaml:5:1: rules is "leisure\nwork\n": want one line of letters that can be printed`,
	}},
	{"escape sequence", "rules: european", "rules: \"\\e[2Jleisure\"", []string{
		`van.yaml:5:1: rules is "\x1b[2Jleisure": want one line of letters that can be printed`,
	}},
	{"very long text", "rules: european", "rules: " + strings.Repeat("leisure", 40), []string{
		`van.yaml:5:1: rules is "leisureleisureleisureleisureleisureleisureleisureleisureleis...": want at most 200 letters`,
	}},
	{"empty name", "name: label printer", "name: \"\"", []string{
		`van.yaml:71:5: loads[1].name is empty: want text`,
	}},
	// links
	{"two batteries of one name", "name: starter\n", "name: house\n", []string{
		`van.yaml:23:5: batteries[1].name is "house": want a name of its own; batteries[0].name on line 9 has it`,
	}},
	{"battery and charger of one name", "  - name: hook-up\n    kind: mains", "  - name: house\n    kind: mains", []string{
		`van.yaml:50:5: chargers[1].name is "house": want a name of its own; batteries[0].name on line 9 has it`,
		`van.yaml:125:5: circuits[3].from is "hook-up": want a node at which something else is`,
		`van.yaml:174:15: states[2].sources[0] is "hook-up": want the name of an alternator, charger or solar array`,
	}},
	{"two loads of one name", "name: label printer", "name: crew fridge", []string{
		`van.yaml:71:5: loads[1].name is "crew fridge": want a name of its own; loads[0].name on line 63 has it`,
		`van.yaml:171:26: states[1].loads[1] is "label printer": want the name of a load`,
	}},
	{"two circuits of one name", "name: fridge\n", "name: house feed\n", []string{
		`van.yaml:150:5: circuits[5].name is "house feed": want a name of its own; circuits[1].name on line 94 has it`,
	}},
	{"two states of one name", "name: overnight", "name: driving", []string{
		`van.yaml:172:5: states[2].name is "driving": want a name of its own; states[0].name on line 164 has it`,
	}},
	{"unknown source", "sources: [hook-up]", "sources: [hookup]", []string{
		`van.yaml:174:15: states[2].sources[0] is "hookup": want the name of an alternator, charger or solar array; nearest: hook-up`,
	}},
	{"battery as a source", "sources: [hook-up]", "sources: [house]", []string{
		`van.yaml:174:15: states[2].sources[0] is "house": want it left out: a battery always runs`,
	}},
	{"inverter as a source", "sources: [hook-up]", "sources: [inverter]", []string{
		`van.yaml:174:15: states[2].sources[0] is "inverter": want the name of an alternator, charger or solar array; nearest: converter`,
	}},
	{"source twice", "sources: [hook-up]", "sources: [hook-up, hook-up]", []string{
		`van.yaml:174:24: states[2].sources[1] is "hook-up": want each name once`,
	}},
	{"unknown load", "loads: [crew fridge, label printer]", "loads: [crew fridge, label press]", []string{
		`van.yaml:171:26: states[1].loads[1] is "label press": want the name of a load`,
	}},
	{"starter without a cable of its own", "critical: false\n", "critical: false\n  - {name: motor, at: board, cranking: true, current_a: 600, behaves: current, hours_a_day: 0.01, duty_percent: 100, critical: false}\n", []string{
		`van.yaml:79:19: loads[2].at is "board": want a node at which a circuit with cranking: true ends`,
	}},
	{"starter in a state", "critical: true\n", "critical: true\n    cranking: true\n    surge_w: 90\n", []string{
		`van.yaml:64:5: loads[0].at is "fridge socket": want a node at which a circuit with cranking: true ends`,
		`van.yaml:69:5: loads[0].longest_run_s is "3600": want it left out where cranking is true`,
		`van.yaml:72:5: loads[0].surge_w is "90": want it left out where cranking is true`,
		`van.yaml:169:13: states[0].loads[0] is "crew fridge": want it left out: a load with cranking: true is in no state`,
		`van.yaml:173:13: states[1].loads[0] is "crew fridge": want it left out: a load with cranking: true is in no state`,
		`van.yaml:177:13: states[2].loads[0] is "crew fridge": want it left out: a load with cranking: true is in no state`,
	}},
	{"load at no node", "at: fridge socket", "at: board socket", []string{
		`van.yaml:64:5: loads[0].at is "board socket": want a node to which a circuit leads`,
		`van.yaml:152:5: circuits[5].to is "fridge socket": want a node at which something else is`,
	}},
	{"load behind no inverter", "inverter: inverter", "inverter: invertor", []string{
		`van.yaml:72:5: loads[1].inverter is "invertor": want the name of an inverter; nearest: inverter`,
	}},
	{"load at a node and behind an inverter", "at: fridge socket", "at: fridge socket\n    inverter: inverter", []string{
		`van.yaml:65:5: loads[0].inverter is "inverter": want either at or inverter, not both`,
	}},
	{"load nowhere", "    inverter: inverter\n", "", []string{
		`van.yaml:71:5: loads[1].at is missing: want at or inverter`,
	}},
	{"power and current", "power_w: 45", "power_w: 45\n    current_a: 3.5", []string{
		`van.yaml:66:5: loads[0].current_a is "3.5": want either power_w or current_a, not both`,
	}},
	{"neither power nor current", "    power_w: 45\n", "", []string{
		`van.yaml:63:5: loads[0].power_w is missing: want power_w or current_a`,
	}},
	{"from a node that nothing else names", "from: house\n", "from: hose\n", []string{
		`van.yaml:95:5: circuits[1].from is "hose": want a node at which something else is; nearest: house`,
	}},
	{"to a node that nothing else names", "to: inverter", "to: table", []string{
		`van.yaml:139:5: circuits[4].to is "table": want a node at which something else is`,
	}},
	{"converter fed at no node", "fed_at: starter", "fed_at: stater", []string{
		`van.yaml:42:5: chargers[0].fed_at is "stater": want a node to which a circuit leads; nearest: starter`,
	}},
	{"no source reaches", "from: board\n    to: fridge socket", "from: roof hatch\n    to: fridge socket\n    length_m: 2\n    size: 2.5 mm2\n    strands: 5\n    insulation_c: 90\n    method: B\n    ambient_c: 40\n    grouped: 3\n    return: cable\n    contacts_milliohm: 2\n    purpose: supply\n  - name: fan\n    from: roof hatch\n    to: fridge socket", []string{
		`van.yaml:151:5: circuits[5].from is "roof hatch": want a node that a battery reaches; no battery reaches roof hatch`,
	}},
	{"nothing connected", "  - name: inverter\n    rated_w", "  - name: spare inverter\n    rated_w: 500\n    surge_w: 900\n    efficiency_percent: 85\n    idle_w: 5\n    cut_out_v: 10.5\n  - name: inverter\n    rated_w", []string{
		`van.yaml:56:5: inverters[0].name is "spare inverter": want a circuit from it or to it`,
	}},
	{"from is to", "from: house\n    to: board", "from: board\n    to: board", []string{
		`van.yaml:96:5: circuits[1].to is "board": want a node other than from`,
	}},
	{"chassis return without its resistance", "    chassis_milliohm: 1.5\n", "", []string{
		`van.yaml:80:5: circuits[0].chassis_milliohm is missing: want it where return is chassis`,
	}},
	{"chassis resistance of a cable return", "return: cable\n    contacts_milliohm: 2\n", "return: cable\n    chassis_milliohm: 2\n    contacts_milliohm: 2\n", []string{
		`van.yaml:161:5: circuits[5].chassis_milliohm is "2": want it left out where return is cable`,
	}},
	{"size of a cable return as that of a chassis", "return: cable\n    contacts_milliohm: 2\n", "return: cable\n    return_size: 4 mm2\n    contacts_milliohm: 2\n", []string{
		`van.yaml:161:5: circuits[5].return_size is "4 mm2": want it left out where return is cable`,
	}},
	{"return beside a sensor that is not there", "    chassis_milliohm: 1.5\n", "    chassis_milliohm: 1.5\n    return_at: post\n", []string{
		`van.yaml:92:5: circuits[0].return_at is "post": want it left out where neither end is a battery with post_sensor: true`,
	}},
	{"node of a space that is none", "craft: vehicle\n", "craft: vehicle\nspaces:\n  - {name: locker, gathers: liquefied gas, nodes: [bord, bord, board]}\n", []string{
		`van.yaml:8:52: spaces[0].nodes[0] is "bord": want the name of a node; nearest: board`,
		`van.yaml:8:58: spaces[0].nodes[1] is "bord": want each name once`,
	}},
	{"node of two spaces", "craft: vehicle\n", "craft: vehicle\nspaces:\n  - {name: locker, gathers: neither, nodes: [board]}\n  - {name: well, gathers: petrol vapour, nodes: [board]}\n", []string{
		`van.yaml:9:50: spaces[1].nodes[0] is "board": want it in one space; locker has it`,
	}},
	{"converter without an input", "    fed_at: starter\n", "", []string{
		`van.yaml:40:5: chargers[0].fed_at is missing: want it where kind is converter`,
	}},
	{"converter without its lowest input", "    least_input_v: 11.5\n", "", []string{
		`van.yaml:40:5: chargers[0].least_input_v is missing: want it where kind is converter`,
	}},
	{"converter without what wakes it", "    wakes_by: voltage\n", "", []string{
		`van.yaml:40:5: chargers[0].wakes_by is missing: want it where kind is converter`,
	}},
	{"converter without wake_v", "    wake_v: 13.3\n", "", []string{
		`van.yaml:40:5: chargers[0].wake_v is missing: want it where wakes_by is voltage`,
	}},
	{"converter without sleep_v", "    sleep_v: 12.7\n", "", []string{
		`van.yaml:40:5: chargers[0].sleep_v is missing: want it where wakes_by is voltage`,
	}},
	{"converter sleeps above its wake", "sleep_v: 12.7", "sleep_v: 13.3", []string{
		`van.yaml:49:5: chargers[0].sleep_v is "13.3": want less than wake_v, which is 13.3`,
	}},
	{"mains charger with an input", "kind: mains", "kind: mains\n    fed_at: starter", []string{
		`van.yaml:52:5: chargers[1].fed_at is "starter": want it left out where kind is mains`,
	}},
	{"empty above full", "empty_v: 12.8", "empty_v: 13.4", []string{
		`van.yaml:18:5: batteries[0].empty_v is "13.4": want less than full_v, which is 13.4`,
	}},
	{"charging voltages out of order", "mass_lb: 50", "charge_least_v: 14.6\n    charge_most_v: 14.5\n    charge_cut_out_v: 14.4\n    cut_out_v: 14.45", []string{
		`van.yaml:22:5: batteries[0].charge_least_v is "14.6": want at most charge_most_v, which is 14.5`,
		`van.yaml:23:5: batteries[0].charge_most_v is "14.5": want at most charge_cut_out_v, which is 14.4`,
		`van.yaml:25:5: batteries[0].cut_out_v is "14.45": want at most charge_cut_out_v, which is 14.4`,
	}},
	{"unit opens below its charging current", "mass_lb: 50", "max_charge_a: 100\n    charge_cut_out_a: 90", []string{
		`van.yaml:22:5: batteries[0].max_charge_a is "100": want at most charge_cut_out_a, which is 90`,
	}},
	{"equalising below absorption", "output_v: 14.4\n    efficiency_percent: 88", "output_v: 14.4\n    equalise_v: 14\n    efficiency_percent: 88", []string{
		`van.yaml:54:5: chargers[1].equalise_v is "14": want at least output_v, which is 14.4`,
	}},
	{"alternator without an engine", "engine: road", "engine: off", []string{
		`van.yaml:166:15: states[0].sources[0] is "alternator": want it left out where engine is off: it does not turn`,
	}},
	{"resistances swapped", "low_milliohm: 2", "low_milliohm: 7", []string{
		`van.yaml:15:5: batteries[0].low_milliohm is "7": want at most high_milliohm, which is 6`,
	}},
	{"24 V battery", "nominal_v: 12.8", "nominal_v: 25.6", []string{
		`van.yaml:12:5: batteries[0].nominal_v is "25.6": want that of the whole string, system_v 12: blocks in series are one battery here`,
	}},
	{"12.8 V of lead", "nominal_v: 12\n", "nominal_v: 12.8\n", []string{
		`van.yaml:26:5: batteries[1].nominal_v is "12.8": want that of the whole string, system_v 12: blocks in series are one battery here`,
	}},
	{"second rating without its hours", "rated_h: 20", "rated_h: 20\n    fast_ah: 80", []string{
		`van.yaml:23:5: batteries[1].fast_h is missing: want it where fast_ah is given`,
	}},
	{"hours without a second rating", "rated_h: 20", "rated_h: 20\n    fast_h: 5", []string{
		`van.yaml:23:5: batteries[1].fast_ah is missing: want it where fast_h is given`,
	}},
	{"second rating no faster", "rated_h: 20", "rated_h: 20\n    fast_ah: 80\n    fast_h: 20", []string{
		`van.yaml:30:5: batteries[1].fast_h is "20": want less than rated_h, which is 20`,
	}},
	{"second rating greater", "rated_h: 20", "rated_h: 20\n    fast_ah: 96\n    fast_h: 5", []string{
		`van.yaml:29:5: batteries[1].fast_ah is "96": want at most capacity_ah, which is 95`,
	}},
	{"second rating at a smaller current", "rated_h: 20", "rated_h: 20\n    fast_ah: 40\n    fast_h: 10", []string{
		`van.yaml:29:5: batteries[1].fast_ah is "40": want a greater current in fast_h, 10 h, than capacity_ah in rated_h`,
	}},
	{"a bank of two chemistries", "bank: starter", "bank: house", []string{
		`van.yaml:25:5: batteries[1].chemistry is "lead-acid flooded": want that of the whole house bank, LiFePO4`,
	}},
	{"a lead-acid battery that rests too high", "full_v: 12.7", "full_v: 13.9", []string{
		`van.yaml:29:5: batteries[1].full_v is "13.9": want 11.4 to 13.8, 1.9 to 2.3 V for each lead-acid cell`,
	}},
	{"a lead-acid battery that rests too low", "full_v: 12.7\n    empty_v: 12.0", "full_v: 11.3\n    empty_v: 11", []string{
		`van.yaml:29:5: batteries[1].full_v is "11.3": want 11.4 to 13.8, 1.9 to 2.3 V for each lead-acid cell`,
	}},
	{"a starter battery of another chemistry beside the house's", "  - name: converter output\n    from: converter\n    to: board\n", "  - name: converter output\n    from: converter\n    to: board\n    switch: {kind: isolator, rating_a: 100}\n    length_m: 1\n    size: AWG 6\n    strands: 5\n    insulation_c: 90\n    method: C\n    ambient_c: 40\n    grouped: 2\n    return: cable\n    contacts_milliohm: 0.4\n    purpose: charge line\n  - name: split charge line\n    from: starter\n    to: board\n", []string{
		`van.yaml:25:5: batteries[1].chemistry is "lead-acid flooded": want that of the whole house bank, LiFePO4`,
	}},
	{"an unknown thing in the bay", "needs:\n", "bay: {length_mm: 760, width_mm: 460, height_mm: 330, tolerance_mm: 3, case_tolerance_mm: 4, along: 1, across: 2, gap_mm: 12, wall_mm: 15, above_mm: 50, cable_mm: 19, bend_times: 5, lug_mm: 40, holds: [inverter, startr], outside_c: 30, position: free on all sides, material: painted sheet steel, fixings: 4, gravities: 10, centre_mm: 120, rows_mm: 150}\nneeds:\n", []string{
		`van.yaml:176:212: bay.holds[1] is "startr": want the name of a battery, charger, solar array or inverter; nearest: starter`,
	}},
	// what the check could not use
	{"a bank without a house battery", "bank: house", "bank: starter", []string{
		`van.yaml:8:1: batteries is a list without a house battery: want one at least with bank: house`,
	}},
	{"two house batteries that nothing joins", "bank: starter\n    chemistry: lead-acid flooded\n    nominal_v: 12\n", "bank: house\n    chemistry: LiFePO4\n    nominal_v: 12.8\n", []string{
		`van.yaml:23:5: batteries[1].name is "starter": want circuits that join it to the rest of the house bank, house`,
	}},
	{"a charger on circuits without a battery", "from: hook-up\n    to: board", "from: hook-up\n    to: socket\n    length_m: 2\n    size: 2.5 mm2\n    strands: 5\n    insulation_c: 90\n    method: B\n    ambient_c: 40\n    grouped: 3\n    return: cable\n    contacts_milliohm: 2\n    purpose: supply\n  - name: back\n    from: socket\n    to: hook-up", []string{
		`van.yaml:125:5: circuits[3].from is "hook-up": want a node that a battery reaches; no battery reaches hook-up`,
	}},
	{"a short circuit of a million amperes", "low_milliohm: 2", "low_milliohm: 0.01", []string{
		`van.yaml:15:5: batteries[0].low_milliohm is "0.01": want so much that all batteries together give no more than 900000 A into a short circuit, not 1340000 A`,
	}},
	{"modules beyond any coefficient", "needs:\n", "solar: [{name: roof, place: Leeds, module_w: 100, open_v: 22, short_a: 6, working_v: 18, power_percent_per_c: -0.4, open_percent_per_c: -1.1, in_series: 1, strings: 1, controller_v: 75, tracking: true, max_a: 15, output_v: 14.2, efficiency_percent: 95, losses_percent: 15, cell_c: 45}]\nneeds:\n", []string{
		`van.yaml:176:10: solar[0].name is "roof": want a circuit from it or to it`,
		`van.yaml:176:117: solar[0].open_percent_per_c is "-1.1": want a number from -1 to -0.1 °C`,
	}},
	{"a run shorter than one that never stops", "    duty_percent: 40\n", "    duty_percent: 100\n", []string{
		`van.yaml:69:5: loads[0].longest_run_s is "3600": want 86400 where it runs for 24 hours a day at 100 percent: it never stops`,
	}},
	{"a start longer than its run", "longest_run_s: 120\n", "longest_run_s: 2\n    surge_w: 400\n    surge_s: 3\n", []string{
		`van.yaml:77:5: loads[1].longest_run_s is "2": want at least surge_s, which is 3: it starts within its run`,
	}},
	{"loads of no hours", "    hours_a_day: 24\n    duty_percent: 40\n    longest_run_s: 3600\n    critical: true\n  - name: label printer\n    inverter: inverter\n    power_w: 300\n    behaves: power\n    hours_a_day: 2\n", "    hours_a_day: 0\n    duty_percent: 40\n    longest_run_s: 3600\n    critical: true\n  - name: label printer\n    inverter: inverter\n    power_w: 300\n    behaves: power\n    hours_a_day: 0\n", []string{
		`van.yaml:62:1: loads is a list of which nothing draws on the house bank: want one that circuits join to it, with hours_a_day or standby_w above 0`,
	}},
	{"a day of 25 hours", "hours_a_day: 15", "hours_a_day: 16", []string{
		`van.yaml:163:1: states is of 25 hours a day in all: want no more than 24`,
	}},
	{"a load in no state", "loads: [crew fridge, label printer]", "loads: [crew fridge]", []string{
		`van.yaml:71:5: loads[1].name is "label printer": want a state that lists it among its loads`,
	}},
	{"an alternator without what the engine does", "    engine: road\n", "", []string{
		`van.yaml:164:5: states[0].engine is missing: want idle or road where an alternator is among the sources`,
	}},
	{"a device behind the end of its run", "along_in: 6", "along_in: 61", []string{
		`van.yaml:110:7: circuits[1].device.along_in is "61": want at most the length of the run, which is 1.524 m`,
	}},
	{"more in the bay than there is", "length_ft: 5", "length_ft: 5\n    in_bay_ft: 6", []string{
		`van.yaml:98:5: circuits[1].in_bay_ft is "6": want at most the length of the run, which is 1.524 m`,
	}},
	{"a device that opens at its rating", "along_in: 6", "along_in: 6\n      opens_a: 100\n      opens_by_s: 0.1", []string{
		`van.yaml:111:7: circuits[1].device.opens_a is "100": want more than rating_a, which is 100: it carries that without end`,
	}},
	{"a device that opens where its standard has it hold", "      family: UL 248-15 T 300 V\n      rating_a: 100\n", "      family: ISO 8820-3 C\n      rating_a: 30\n      opens_a: 33\n      opens_by_s: 3600\n", []string{
		`van.yaml:111:7: circuits[1].device.opens_by_s is "3600": want at least 360000: ISO 8820-3 C carries 33 A for that long`,
	}},
	{"a device that lets through less than opens it", "along_in: 6", "along_in: 6\n      pre_arcing_a2s: 5000\n      total_a2s: 4999", []string{
		`van.yaml:112:7: circuits[1].device.total_a2s is "4999": want at least pre_arcing_a2s, which is 5000: the arc adds to it`,
	}},
	// keys of what is optional
	{"part of a circuit", "grouped: 3", "grouped: 2.5", []string{
		`van.yaml:159:5: circuits[5].grouped is "2.5": want a whole number from 1 to 60`,
	}},
	{"breaking capacity without its voltage", "along_in: 6", "along_in: 6\n      breaks_a: 2000", []string{
		`van.yaml:107:5: circuits[1].device.breaks_at_v is missing: want it where breaks_a is given`,
	}},
	{"voltage without its breaking capacity", "along_in: 6", "along_in: 6\n      breaks_at_v: 32", []string{
		`van.yaml:107:5: circuits[1].device.breaks_a is missing: want it where breaks_at_v is given`,
	}},
	{"breaking capacity not a number", "along_in: 6", "along_in: 6\n      breaks_a: 2 kA", []string{
		`van.yaml:107:5: circuits[1].device.breaks_at_v is missing: want it where breaks_a is given`,
		`van.yaml:111:7: circuits[1].device.breaks_a is "2 kA": want a number from 1 to 500000 A; the number alone, in A`,
	}},
	{"opens at a current, by no time", "along_in: 6", "along_in: 6\n      opens_a: 400", []string{
		`van.yaml:107:5: circuits[1].device.opens_by_s is missing: want it where opens_a is given`,
	}},
	{"opens by a time, at no current", "along_in: 6", "along_in: 6\n      opens_by_s: 1", []string{
		`van.yaml:107:5: circuits[1].device.opens_a is missing: want it where opens_by_s is given`,
	}},
	{"holds a current for no time", "along_in: 6", "along_in: 6\n      holds_a: 150", []string{
		`van.yaml:107:5: circuits[1].device.holds_s is missing: want it where holds_a is given`,
	}},
	{"holds for a time at the far end, no current", "    contacts_milliohm: 2\n    purpose: supply", "    contacts_milliohm: 2\n    purpose: supply\n    far_device: {family: UL 248-15 T 300 V, rating_a: 10, along_mm: 0, holds_s: 1}", []string{
		`van.yaml:163:5: circuits[5].far_device.holds_a is missing: want it where holds_s is given`,
	}},
	{"holds longer than it opens", "along_in: 6", "along_in: 6\n      holds_a: 400\n      holds_s: 2\n      opens_a: 300\n      opens_by_s: 1", []string{
		`van.yaml:112:7: circuits[1].device.holds_s is "2": want at most opens_by_s, which is 1: it has opened by then at opens_a`,
	}},
	{"a management unit that guards nothing", "mass_lb: 50", "charge_cut_out_v: 30", []string{
		`van.yaml:22:5: batteries[0].charge_cut_out_v is "30": want at most 17.152: a third above nominal_v guards no cell`,
	}},
	{"a load that no full battery holds on", "power_w: 45", "power_w: 45\n    sheds_v: 14", []string{
		`van.yaml:66:5: loads[0].sheds_v is "14": want less than full_v of the batteries, which is 13.4: else it is never on at rest`,
	}},
	{"a rule set that no table has", "rules: european", "rules: continental", []string{
		`van.yaml:5:1: rules is "continental": want one of european, iso-craft, us-boat, us-voluntary-craft, us-rv, au-nz`,
	}},
	{"a tested back-up by nobody", "along_in: 6", "along_in: 6\n      backed_up_a: 5000", []string{
		`van.yaml:107:5: circuits[1].device.backed_up_at_v is missing: want it where backed_up_a is given`,
		`van.yaml:107:5: circuits[1].device.backed_up_by is missing: want it where backed_up_a is given`,
	}},
	{"backed up by itself", "along_in: 6", "along_in: 6\n      backed_up_a: 5000\n      backed_up_at_v: 32\n      backed_up_by: house feed", []string{
		`van.yaml:113:7: circuits[1].device.backed_up_by is "house feed": want another circuit than its own`,
	}},
	{"backed up by no circuit", "along_in: 6", "along_in: 6\n      backed_up_a: 5000\n      backed_up_at_v: 32\n      backed_up_by: convertor output", []string{
		`van.yaml:113:7: circuits[1].device.backed_up_by is "convertor output": want the name of a circuit; nearest: converter output`,
	}},
	{"backed up by a circuit without a device", "along_in: 6", "along_in: 6\n      backed_up_a: 5000\n      backed_up_at_v: 32\n      backed_up_by: converter output", []string{
		`van.yaml:113:7: circuits[1].device.backed_up_by is "converter output": want a circuit that has a device`,
	}},
	{"start without its power", "power_w: 45", "power_w: 45\n    surge_s: 0.5", []string{
		`van.yaml:63:5: loads[0].surge_w is missing: want it where surge_s is given`,
	}},
	{"switch of no known kind", "    grouped: 3\n", "    grouped: 3\n    switch: {kind: togle, rating_a: 10, load: lamp}\n", []string{
		`van.yaml:160:14: circuits[5].switch.kind is "togle": want isolator, toggle, relay or contactor; nearest: toggle`,
	}},
	{"toggle without its kind of load", "    grouped: 3\n", "    grouped: 3\n    switch: {kind: toggle, rating_a: 10, short_time_a: 20}\n", []string{
		`van.yaml:160:5: circuits[5].switch.load is missing: want it where kind is toggle`,
	}},
	{"isolator with a kind of load", "    grouped: 3\n", "    grouped: 3\n    switch: {kind: isolator, rating_a: 100, load: motor}\n", []string{
		`van.yaml:160:45: circuits[5].switch.load is "motor": want it left out where kind is isolator`,
	}},
	{"switch without a rating", "    grouped: 3\n", "    grouped: 3\n    switch: {kind: isolator}\n", []string{
		`van.yaml:160:5: circuits[5].switch.rating_a is missing: want a number from 0.1 to 10000 A (rated current without end, d.c.)`,
	}},
	{"one cable in parallel", "    grouped: 3\n", "    grouped: 3\n    cables: {count: 1, identical: true}\n", []string{
		`van.yaml:160:14: circuits[5].cables.count is "1": want a whole number from 2 to 10`,
	}},
	{"cables not said to be alike", "    grouped: 3\n", "    grouped: 3\n    cables: {count: 2}\n", []string{
		`van.yaml:160:5: circuits[5].cables.identical is missing: want true or false (of one length, route and joints, nothing branching off; false: length_m is that of the shortest)`,
	}},
	{"cables in parallel that the group does not count", "    grouped: 3\n", "    grouped: 3\n    cables: {count: 4, identical: true}\n", []string{
		`van.yaml:159:5: circuits[5].grouped is "3": want at least cables.count, which is 4: each of them counts`,
	}},
	{"cables a bare number", "    grouped: 3\n", "    grouped: 3\n    cables: 2\n", []string{
		`van.yaml:160:5: circuits[5].cables is "2": want keys with values`,
	}},
	{"range of supply the wrong way round", "power_w: 45", "power_w: 45\n    works_from_v: 16\n    works_to_v: 9", []string{
		`van.yaml:66:5: loads[0].works_from_v is "16": want less than works_to_v, which is 9`,
	}},
	{"range of supply behind an inverter", "inverter: inverter\n", "inverter: inverter\n    works_from_v: 9\n    survives_v: 60\n    sheds_v: 11\n", []string{
		`van.yaml:73:5: loads[1].works_from_v is "9": want it left out where an inverter feeds it`,
		`van.yaml:74:5: loads[1].survives_v is "60": want it left out where an inverter feeds it`,
		`van.yaml:75:5: loads[1].sheds_v is "11": want it left out where an inverter feeds it`,
	}},
	{"no such supply code", "power_w: 45", "power_w: 45\n    supply_code: K", []string{
		`van.yaml:66:5: loads[0].supply_code is "K": want A, B, C, D, E, F, G or H`,
	}},
	{"range of an inverter the wrong way round", "cut_out_v: 10.5", "cut_out_v: 10.5\n    works_from_v: 16\n    works_to_v: 16", []string{
		`van.yaml:62:5: inverters[0].works_from_v is "16": want less than works_to_v, which is 16`,
	}},
	{"air over the roof warmer than where the batteries stand", "coldest_f: 14\n", "coldest_f: 14\noutside_coldest_f: 50\n", []string{
		`van.yaml:8:1: outside_coldest_f is "50": want at most coldest_c, which is -10`,
	}},
	{"least load of the front axle above its greatest", "needs:\n", "weights: {wheelbase_m: 3, front_kg: 70, rear_kg: 800, front_limit_kg: 100, front_least_lb: 250, rear_limit_kg: 1300, gross_limit_kg: 1300, items: [{name: cases, mass_kg: 100, behind_m: 2}]}\nneeds:\n", []string{
		`van.yaml:176:76: weights.front_least_lb is "250": want at most front_limit_kg, which is 100`,
	}},
	{"resistor for an unknown capacitance", "cut_out_v: 10.5", "cut_out_v: 10.5\n    precharge_ohm: 10", []string{
		`van.yaml:56:5: inverters[0].input_uf is missing: want it where precharge_ohm is given`,
	}},
	{"unit behind a capacitance", "cut_out_v: 10.5", "cut_out_v: 10.5\n    input_uf: 12000 uF", []string{
		`van.yaml:62:5: inverters[0].input_uf is "12000 uF": want a number from 1 to 1000000 µF; the number alone, in µF`,
	}},
}
