package cite

// Documents that code cites by name. The figures in tables/data cite any
// document of the list below by its key.
var (
	// OhmsLaw and its kin need no edition: any textbook of physics has them.
	OhmsLaw = Document{"Ohm's law", "Voltage, current and resistance: U = I R, P = U I", 0}
	// Kirchhoff's laws: currents at a node and voltages round a loop sum to nought.
	Kirchhoff = Document{"Kirchhoff's laws", "Currents at a node and voltages round a loop sum to zero", 0}
	// Capacitor holds the laws of a capacitor charged through a resistor.
	Capacitor = Document{"law of the capacitor", "Charging through a resistor: i = U/R exp(-t/RC), W = C U²/2", 0}
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
	// Woodbridge holds the ampere-hour law: no more amperes than ampere-hours missing.
	Woodbridge = Document{"Woodbridge 1935", "J. L. Woodbridge, Storage battery charging, Transactions of the AIEE", 1935}
	// BCI is the practice of temperature compensation that battery makers share.
	BCI = Document{"BCI practice", "Practice of the Battery Council International, as others reproduce it", 0}
	// IEEE946 sizes a charger that carries a standing load.
	IEEE946 = Document{"IEEE 946", "Design of d.c. power systems for stationary applications", 0}
	// FAO56 gives the radiation above the atmosphere and the length of the day.
	FAO56 = Document{"FAO-56", "Crop evapotranspiration, FAO Irrigation and Drainage Paper 56", 1998}
	// DuffieBeckman is the textbook of solar geometry and of radiation on slopes.
	DuffieBeckman = Document{"Duffie and Beckman 2013", "Solar Engineering of Thermal Processes (4th edition)", 2013}
	// Faiman gives a module's temperature from two loss factors.
	Faiman = Document{"Faiman 2008", "D. Faiman, Assessing the outdoor operating temperature of photovoltaic modules", 2008}
	// SandiaArray gives a module's temperature from its mounting and the wind.
	SandiaArray = Document{"SAND2004-3535", "King, Boyson and Kratochvil, Photovoltaic array performance model, Sandia National Laboratories", 2004}
	// PVPMC is the public guide to modelling photovoltaic modules.
	PVPMC = Document{"PVPMC modelling guide", "PV Performance Modeling Collaborative: modelling guide, Sandia National Laboratories", 0}
	// PVWatts gives the losses of a photovoltaic system and its power.
	PVWatts = Document{"NREL/TP-6A20-62641", "A. P. Dobos, PVWatts version 5 manual", 2014}
	// NFPA70 holds the rules for photovoltaic circuits in its article 690.
	NFPA70 = Document{"NFPA 70", "National Electrical Code (clause numbers of the 2008 to 2017 editions)", 0}
	// Copetti gives a lead-acid battery's voltage and charge efficiency.
	Copetti = Document{"Copetti 1993", "Copetti, Lorenzo and Chenlo, A general battery model for PV system simulation (CIEMAT)", 1993}
	// UFC352001 sizes batteries of uninterruptible supplies in its appendix E.
	UFC352001 = Document{"UFC 3-520-01:2002", "Design: interior electrical systems (US Department of Defense)", 2002}
	// UFC341004 gives the hydrogen of battery rooms and the air that dilutes it.
	UFC341004 = Document{"UFC 3-410-04N:2004", "Design: industrial ventilation (US Department of Defense)", 2004}
	// UPSWorksheet is an industrial worksheet for batteries of d.c. systems.
	UPSWorksheet = Document{"industrial UPS worksheet", "Industrial engineering standard for UPS and d.c. systems, with a sizing worksheet", 0}
	// IEEE485 sizes lead-acid batteries by the sections of a duty cycle.
	IEEE485 = Document{"IEEE 485", "Sizing lead-acid batteries for stationary applications", 0}
	// PVWorksheet sizes the battery of a stand-alone photovoltaic system.
	PVWorksheet = Document{"PV sizing worksheet", "North American worksheet for the battery of a stand-alone photovoltaic system", 0}
	// Peukert's law ties the capacity to the current.
	Peukert = Document{"Peukert's law", "Capacity falls as the current rises: I^k t is constant", 0}
	// Kinetic is the model of two wells: charge at hand and charge that must first flow to it.
	Kinetic = Document{"Manwell and McGowan 1993", "Lead acid battery storage model for hybrid energy systems, Solar Energy 50", 1993}
	// IEC624852 ventilates rooms and boxes of stationary batteries.
	IEC624852 = Document{"IEC 62485-2", "Safety requirements for secondary batteries: stationary batteries", 0}
	// IEC614271 tests batteries for photovoltaic use.
	IEC614271 = Document{"IEC 61427-1", "Secondary batteries for renewable energy storage: photovoltaic off-grid use", 0}
	// IEC624853 ventilates where traction batteries are charged.
	IEC624853 = Document{"IEC 62485-3", "Safety requirements for secondary batteries: traction batteries", 0}
	// VDE0660500 gives the cooling area of an enclosure.
	VDE0660500 = Document{"VDE 0660-500", "Temperature rise of enclosed switchgear assemblies by extrapolation", 0}
	// Air is any textbook's density and heat capacity of dry air.
	Air = Document{"properties of air", "Density and heat capacity of dry air: any textbook of physics", 0}
	// IEC6089621 measures a battery's resistance by two loads.
	IEC6089621 = Document{"IEC 60896-21", "Stationary lead-acid batteries: valve regulated types, methods of test", 0}
	// Moments about a point balance: any textbook of statics.
	Moments = Document{"law of moments", "Moments of force about a point balance", 0}
	// Faraday's law of electrolysis: the gas set free is proportional to the charge.
	Faraday = Document{"Faraday's law", "Faraday's law of electrolysis: gas set free is proportional to charge", 0}
	// ASTMB258 gives the diameters of AWG sizes by a formula.
	ASTMB258 = Document{"ASTM B258", "Nominal diameters and areas of AWG sizes of solid round wires", 0}
	// IEC60949 gives what a conductor takes in a short time.
	IEC60949 = Document{"IEC 60949", "Thermally permissible short-circuit currents, with non-adiabatic heating", 0}
	// IEC6094741 rates contactors by what they make and break.
	IEC6094741 = Document{"IEC 60947-4-1", "Low-voltage switchgear and controlgear: contactors and motor-starters", 0}
	// Preece found the current that melts a wire in still air.
	Preece = Document{"Preece", "W. H. Preece on the fusing current of wires: I = a d^1.5", 0}
	// Onderdonk gives the current that melts a copper wire in a given time.
	Onderdonk = Document{"Onderdonk's equation", "Current that melts a copper wire in a given time", 0}
	// MILW5088 derates bundles of aircraft wire.
	MILW5088 = Document{"MIL-W-5088L", "Wiring, aerospace vehicle", 0}
	// PVLib is an open library of photovoltaic modelling.
	PVLib = Document{"pvlib-python", "Open library of photovoltaic modelling", 0}
	// Tremblay's model draws a discharge curve through four of its points.
	Tremblay = Document{"Tremblay and Dessaint 2009", "O. Tremblay and L.-A. Dessaint, Experimental validation of a battery dynamic model for EV applications", 2009}
)

var documents = []Document{
	OhmsLaw, Kirchhoff, Arithmetic, Practice, DataSheet, Capacitor,
	IEC60228, AC4313, BS7671, IEC6036443, CFR33,

	// Conductors, ampacity, corrections and drop.
	ASTMB258,
	{"HyperPhysics", "American wire gauge, after the NBS figures (Georgia State University)", 0},
	{"NBS Circular 31", "Copper wire tables, National Bureau of Standards", 1914},
	{"NBS Handbook 100", "Copper wire tables, National Bureau of Standards", 1966},
	{"NEETS module 4", "Navy electricity and electronics training: conductors, wiring and schematics", 0},
	{"IEC 60028", "International standard of resistance for copper", 0},
	{"IEC 60889", "Hard-drawn aluminium wire for overhead line conductors", 0},
	IEC60949,
	Preece,
	Onderdonk,
	NFPA70,
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
	{"BS 7671:2018", "Requirements for electrical installations (18th edition)", 2018},
	{"IET On-Site Guide", "Guide to BS 7671 for work on site", 0},
	{"EN 1648-2", "Leisure accommodation vehicles: 12 V d.c. installations, motor caravans", 0},
	{"Code of practice for the electricity (wiring) regulations 2009", "Wiring code of the Hong Kong government", 2009},
	{"AS/NZS 3000", "Electrical installations (wiring rules)", 0},
	{"AS/NZS 3001.2:2022", "Electrical installations: connectable electrical installations", 2022},
	{"IEC 60092", "Electrical installations in ships (series)", 0},
	{"IEC 60092-201", "Electrical installations in ships: system design", 0},
	{"46 CFR", "Shipping, United States: parts 28, 111, 120, 169 and 183", 0},
	MILW5088,
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
	{"UL 248-7", "Low-voltage fuses: class H, renewable", 2019},
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
	{"IEC 60204-1", "Safety of machinery: electrical equipment of machines", 0},
	{"IEC 60947-1", "Low-voltage switchgear and controlgear: general rules", 0},
	{"IEC 60947-2", "Low-voltage switchgear and controlgear: circuit-breakers", 0},
	IEC6094741,
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

	// Charging and the sun.
	{"DIN 41773", "Semiconductor rectifier equipment with IU characteristic for lead-acid batteries", 0},
	{"DIN 41774", "Semiconductor rectifier equipment with W characteristic for lead-acid batteries", 0},
	{"DE 975920", "German patent on a charger for lead-acid batteries", 1962},
	IEC624852,
	{"IEC 60896-11", "Stationary lead-acid batteries: vented types", 0},
	{"IEC 60095-1", "Lead-acid starter batteries: general requirements and methods of test", 0},
	{"IEEE 450", "Maintenance, testing and replacement of vented lead-acid stationary batteries", 0},
	{"IEEE 1188", "Maintenance, testing and replacement of valve-regulated lead-acid stationary batteries", 0},
	{"NAVEDTRA 14113", "US Navy training manual: storage batteries", 0},
	{"TM 5-684", "Facilities engineering: electrical exterior facilities (US Army, Navy and Air Force)", 0},
	{"TM 5-4210-230-14&P-1", "US Army manual of a fire-fighting truck: batteries", 0},
	{"TM 9-6140-200-14", "US Army manual of lead-acid storage batteries", 0},
	{"Mas 1971", "J. A. Mas, The charging process, Electric Vehicle Symposium", 1971},
	{"Stevens and Corey 1996", "A study of lead-acid battery efficiency near top-of-charge, Sandia, IEEE Photovoltaic Specialists Conference", 1996},
	{"Sandia PV worksheets", "Design worksheets 1 to 5 for stand-alone photovoltaic systems, Sandia National Laboratories", 0},
	{"SAE J56 JUN1999", "Road vehicles: alternators with regulators, test methods and general requirements", 1999},
	{"ISO 10605", "Road vehicles: test methods for disturbances from electrostatic discharge", 0},
	{"Cooper 1969", "P. I. Cooper, The absorption of radiation in solar stills", 1969},
	{"Spencer 1971", "J. W. Spencer, Fourier series representation of the position of the sun", 1971},
	PVLib,
	{"NREL/TP-463-5607", "Solar radiation data manual for flat-plate and concentrating collectors", 1994},
	{"IWEC", "International weather for energy calculations: typical years", 0},
	{"TMY2", "Typical meteorological years 2, from the 1961 to 1990 solar radiation data base (NREL)", 1995},
	{"TMY3", "Typical meteorological years 3 (NREL)", 2008},
	{"NSRDB", "National Solar Radiation Database, typical years (NREL)", 0},
	{"PVGIS", "Photovoltaic Geographical Information System, typical years (European Commission)", 0},
	{"NASA POWER", "Prediction of worldwide energy resources, climatology 2001 to 2020", 0},
	{"typical weather year", "Hourly weather files of one typical year in public repositories", 0},
	{"DIN 41772", "Semiconductor rectifier equipment: letters of the characteristic curves, with supplement 1", 1979},
	IEEE946,
	BCI,
	Woodbridge,
	Copetti,
	{"ISO 8854:2012", "Road vehicles: alternators with regulators, test methods and general requirements", 2012},
	FAO56,
	DuffieBeckman,
	SandiaArray,
	Faiman,
	PVPMC,
	PVWatts,

	// Batteries, their bay and loads.
	Faraday,
	Moments,
	IEC6089621,
	Kinetic,
	{"battery data sheets", "Typical figures of battery data sheets, as remembered", 0},
	{"equipment data sheets", "Typical figures of data sheets and rating plates of equipment, as remembered", 0},
	Peukert,
	{"Encyclopedia of Alternative Energy", "D. Darling, encyclopedia of alternative energy and sustainable living", 0},
	{"PVEducation", "C. Honsberg and S. Bowden, photovoltaics education: lead-acid batteries", 0},
	{"J. Renewable Energy 2024", "Review of storage batteries, Journal of Renewable Energy, article 2329261", 2024},
	{"Sunil 2025", "Sunil, Pattipati and Balasingam, piecewise battery open-circuit voltage, IEEE Transactions on Instrumentation and Measurement, with its data", 2025},
	Tremblay,
	{"PyBaMM", "Open library of battery models: set of a 2.3 Ah lithium iron phosphate cell", 0},
	{"NREL ssc", "Open simulation core of the National Renewable Energy Laboratory: inputs of its battery tests", 0},
	{"Modelica Standard Library", "Open library of physical models: example of a battery cell", 0},
	{"Zephyr RTOS", "Open operating system for small devices: default tables of cell voltage", 0},
	PVWorksheet,
	{"GB/T 19064-2003", "Solar home systems: specifications and test procedure", 2003},
	UPSWorksheet,
	UFC352001,
	UFC341004,
	{"UFGS 16265A", "US federal guide specification: uninterruptible power supply systems", 0},
	IEEE485,
	{"IEEE 1635", "Ventilation and thermal management of stationary batteries", 0},
	{"IEC 60254-1", "Lead-acid traction batteries: general requirements and methods of test", 0},
	{"IEC 60623", "Vented nickel-cadmium prismatic rechargeable single cells", 0},
	IEC614271,
	{"IEC 61951-2", "Portable sealed rechargeable cells: nickel-metal hydride", 0},
	{"IEC 62093", "Balance-of-system components for photovoltaic systems: design qualification", 0},
	IEC624853,
	{"IEC 62620", "Secondary lithium cells and batteries for use in industrial applications", 0},
	{"EN 50342-1", "Lead-acid starter batteries: general requirements and methods of test", 0},
	{"DIN 43539-2", "Accumulators, testing: starter batteries (withdrawn)", 0},
	{"SAE J537", "Storage batteries", 0},
	{"TM 5-1185", "US Army technical manual: care of lead-acid batteries", 0},
	{"TM 5-3805-262-20", "US Army technical manual of a scoop loader: battery voltage test", 0},
	{"TM 10-6140-200-14", "US Army manual of motive-power lead-acid batteries", 0},
	{"TM 11-6140-203-14-1", "US Army manual of nickel-cadmium batteries", 0},
	{"OD0010", "US Army ordnance subcourse OD0010", 0},
	{"OD1002", "US Army ordnance subcourse OD1002", 0},
	{"49 CFR 393", "Parts and accessories necessary for safe operation of commercial vehicles, United States", 0},
	{"Quebec C-24.2, r. 30", "Regulation respecting standards for securing loads, Quebec", 0},
	{"CCR title 13", "California Code of Regulations: motor vehicles", 0},
	{"ABYC E-10", "Storage batteries on boats", 0},
	{"ISO/TS 23625:2021", "Small craft: lithium-ion batteries (technical specification)", 2021},
	{"ISO 23625:2025", "Small craft: lithium-ion batteries", 2025},
	{"EN 1648-2:2018", "Leisure accommodation vehicles: 12 V d.c. installations, motor caravans", 2018},
	VDE0660500,
	Air,
	{"DOE appliance list", "US Department of Energy: typical wattages of appliances, as a Penn State course carries it", 0},
	{"EN 50530", "Overall efficiency of grid-connected photovoltaic inverters", 0},
	{"CEC inverter test protocol", "Performance test protocol for inverters in grid-connected photovoltaic systems, California Energy Commission", 2004},
}
