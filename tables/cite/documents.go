package cite

// Documents that code cites by name. The figures in tables/data cite any
// document of the list below by its key.
var (
	// OhmsLaw and its kin need no edition: any textbook of physics has them.
	OhmsLaw = Document{"Ohm's law", "Voltage, current and resistance: U = I R, P = U I", 0}
	// Kirchhoff's laws: currents at a node and voltages round a loop sum to nought.
	Kirchhoff = Document{"Kirchhoff's laws", "Currents at a node and voltages round a loop sum to zero", 0}
	// Arithmetic marks a sum, a conversion of units or a count.
	Arithmetic = Document{"arithmetic", "Sums, counts and conversions of units", 0}
	// Practice marks a fact of the trade that no document states.
	Practice = Document{"common practice", "Practice of the trade, without a published source", 0}
	// DataSheet marks a figure of the article's own, as the reader gives it.
	DataSheet = Document{"data sheet", "The article's own data sheet or rating plate, as given by the reader", 0}

	// IEC60228 gives the greatest resistance of a standard conductor at 20 °C.
	IEC60228 = Document{"IEC 60228:2004", "Conductors of insulated cables", 2004}
	// AC4313 is the aircraft mechanic's manual of accepted practice.
	AC4313 = Document{"FAA AC 43.13-1B", "Acceptable methods, techniques and practices: aircraft inspection and repair", 2001}
	// BS7671 is the British wiring code; appendix 4 holds its cable tables.
	BS7671 = Document{"BS 7671:2008", "Requirements for electrical installations (17th edition)", 2008}
	// IEC6036443 holds the rule that ties a device to the conductor it protects.
	IEC6036443 = Document{"IEC 60364-4-43", "Low-voltage electrical installations: protection against overcurrent", 2008}
	// CFR33 is the regulation for gasoline-engined boats of the United States.
	CFR33 = Document{"33 CFR 183", "Boats and associated equipment, subpart I: electrical systems", 0}
)

var documents = []Document{
	OhmsLaw, Kirchhoff, Arithmetic, Practice, DataSheet,
	IEC60228, AC4313, BS7671, IEC6036443, CFR33,

	// Conductors, ampacity, corrections and drop.
	{"ASTM B258", "Nominal diameters and areas of AWG sizes of solid round wires", 0},
	{"HyperPhysics", "American wire gauge, after the NBS figures (Georgia State University)", 0},
	{"NBS Circular 31", "Copper wire tables, National Bureau of Standards", 1914},
	{"NBS Handbook 100", "Copper wire tables, National Bureau of Standards", 1966},
	{"NEETS module 4", "Navy electricity and electronics training: conductors, wiring and schematics", 0},
	{"IEC 60028", "International standard of resistance for copper", 0},
	{"IEC 60889", "Hard-drawn aluminium wire for overhead line conductors", 0},
	{"IEC 60949", "Thermally permissible short-circuit currents, with non-adiabatic heating", 0},
	{"Preece", "W. H. Preece on the fusing current of wires: I = a d^1.5", 0},
	{"Onderdonk's equation", "Current that melts a copper wire in a given time", 0},
	{"NFPA 70", "National Electrical Code (clause numbers of the 2008 to 2017 editions)", 0},
	{"ABYC E-11", "A.c. and d.c. electrical systems on boats", 0},
	{"ISO 10133:2012", "Small craft: extra-low-voltage d.c. installations", 2012},
	{"ISO 13297:2020", "Small craft: alternating and direct current installations", 2020},
	{"ISO 6722-1:2011", "Road vehicles: 60 V and 600 V single-core cables, copper", 2011},
	{"SAE J1127", "Low voltage battery cable", 0},
	{"SAE J1128", "Low voltage primary cable", 0},
	{"UL 1426", "Electrical cables for boats", 0},
	{"VDE 0298-4:2013", "Use of cables: current-carrying capacity", 2013},
	{"VDE 0298-3", "Use of cables: guide to use of non-harmonised cables", 0},
	{"IEC 60364-5-52:2001", "Low-voltage electrical installations: wiring systems", 2001},
	{"IEC 60364-5-52:2009", "Low-voltage electrical installations: wiring systems", 2009},
	{"IEC 60364-5-54", "Low-voltage electrical installations: earthing and protective conductors", 0},
	{"IEC 60364-7-721", "Low-voltage electrical installations: caravans and motor caravans", 0},
	{"BS 7671:1992", "Requirements for electrical installations (16th edition)", 1992},
	{"IET On-Site Guide", "Guide to BS 7671 for work on site", 0},
	{"EN 1648-2", "Leisure accommodation vehicles: 12 V d.c. installations, motor caravans", 0},
	{"AS/NZS 3000", "Electrical installations (wiring rules)", 0},
	{"AS/NZS 3001.2:2022", "Electrical installations: connectable electrical installations", 2022},
	{"IEC 60092", "Electrical installations in ships (series)", 0},
	{"IEC 60092-201", "Electrical installations in ships: system design", 0},
	{"46 CFR", "Shipping, United States: parts 28, 111, 120 and 183", 0},
	{"MIL-W-5088L", "Wiring, aerospace vehicle", 0},
	{"SAE AS50881", "Wiring, aerospace vehicle", 0},
	{"TM 1-1500-204-23-4", "US Army manual of general aircraft maintenance: electrical and instrument practices", 0},

	// Overcurrent devices, switching and supply voltage.
	{"ISO 8820-1:1994", "Road vehicles: blade-type fuse-links (withdrawn edition)", 1994},
	{"ISO 8820-2", "Road vehicles: fuse-links, user guide", 0},
	{"ISO 8820-3:2015", "Road vehicles: fuse-links with tabs, types C, E and F", 2015},
	{"ISO 8820-4:2016", "Road vehicles: fuse-links with female contacts and bolt-in contacts", 2016},
	{"ISO 8820-5:2015", "Road vehicles: strip fuse-links SF30 and SF51", 2015},
	{"ISO 8820-6:2019", "Road vehicles: single-bolt fuse-links", 2019},
	{"ISO 8820-7", "Road vehicles: fuse-links with tabs, type G, 450 V", 0},
	{"ISO 8820-8", "Road vehicles: fuse-links with bolt-in contacts, types H and J, 450 V", 0},
	{"ISO 8820-9", "Road vehicles: fuse-links with shortened tabs, type K", 0},
	{"ISO 8820-10:2020", "Road vehicles: fuse-links with tabs, type L", 2020},
	{"ISO 8820-11:2020", "Road vehicles: fuse-links with tabs, type M", 2020},
	{"ISO 8820-12:2020", "Road vehicles: fuse-links with tabs, type N", 2020},
	{"ISO 8820-13:2020", "Road vehicles: fuse-links with tabs, type P", 2020},
	{"ISO 10924-4:2025", "Road vehicles: circuit-breakers, medium blade type CB15", 2025},
	{"SAE J1284", "Blade type electric fuses", 1988},
	{"SAE J2077", "Miniature blade type electrical fuses", 0},
	{"SAE J1888", "High current time lag electric fuses", 0},
	{"SAE J554", "Electric fuses, cartridge type", 1987},
	{"SAE J553", "Circuit breakers", 2022},
	{"SAE J1625", "Heavy-duty circuit breakers", 1996},
	{"UL 248-1", "Low-voltage fuses: general requirements", 0},
	{"UL 248-2", "Low-voltage fuses: class C", 2019},
	{"UL 248-9", "Low-voltage fuses: class K", 2015},
	{"UL 248-14", "Low-voltage fuses: supplemental fuses", 0},
	{"UL 248-15", "Low-voltage fuses: class T", 0},
	{"UL 489", "Moulded-case circuit breakers", 0},
	{"MIL-PRF-23419", "Fuses, cartridge, instrument type", 0},
	{"EEE-INST-002", "NASA: selection, screening, qualification and derating of parts", 0},
	{"ECSS-Q-ST-30-11C", "Space product assurance: derating of parts (revision 2)", 0},
	{"IEC 60127-2", "Miniature fuses: cartridge fuse-links", 0},
	{"IEC 60127-9:2025", "Miniature fuses: partial-range fuse-links", 2025},
	{"IEC 60269-1", "Low-voltage fuses: general requirements", 0},
	{"IEC 60269-2", "Low-voltage fuses: for use by authorised persons", 0},
	{"IEC 60898-1", "Circuit-breakers for household installations: a.c.", 0},
	{"IEC 60898-2", "Circuit-breakers for household installations: a.c. and d.c.", 0},
	{"IEC 60898-3:2019", "Circuit-breakers for household installations: d.c.", 2019},
	{"IEC 60947-1", "Low-voltage switchgear and controlgear: general rules", 0},
	{"IEC 60947-2", "Low-voltage switchgear and controlgear: circuit-breakers", 0},
	{"DIN 43673-1", "Busbars: bolted joints of rectangular bars", 0},
	{"ISO 13590:2018", "Small craft: personal watercraft", 2018},
	{"small commercial vessel code", "Code of safety for small commercial vessels: electrical arrangements", 0},
	{"California DOT equipment specification", "Department of Transportation, equipment electrical specification, section 3", 0},
	{"ADR 2017", "Carriage of dangerous goods by road, European agreement", 2017},
	{"30 CFR 75", "Underground coal mines, United States: diesel equipment", 0},
	{"Boat Safety Scheme", "Examination guide for boats on inland waters, United Kingdom", 0},
	{"PV Suggested Practices", "Photovoltaic power systems and the National Electrical Code: suggested practices", 0},
	{"Evaluating selective coordination", "Paper on selective coordination between current-limiting fuses and breakers", 0},
	{"ISO 16750-1", "Road vehicles: environmental conditions for electrical equipment, general", 0},
	{"ISO 16750-2:2010", "Road vehicles: environmental conditions, electrical loads", 2010},
	{"ISO 16750-2:2012", "Road vehicles: environmental conditions, electrical loads", 2012},
	{"ISO 7637-2:2004", "Road vehicles: electrical transient conduction along supply lines", 2004},
	{"ISO/TR 7637-1:1990", "Road vehicles: electrical disturbance by conducting and coupling", 1990},
}
