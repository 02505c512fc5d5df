package inspect

import "slices"

// rule is one rule with its documentation. Its id is permanent, and is that of
// the package which judges; P26 and P27 are our own. A rule may answer under further ids:
// P13 also under P12 and P25, P15 under P16, P17 under P18.
type rule struct {
	id     string
	title  string
	danger string // what it would do
	why    string
	wiring bool // whether another cable or device can change its answer
	judge  func(m *model) ([]Finding, error)
}

// rules stand in order of danger: what burns, what trips, what starves.
var rules = []rule{
	{
		"P07", "A device guards the conductor",
		"a short circuit burns the cable from end to end",
		"a conductor that a battery can feed has no limit to its fault current but a fuse",
		true,
		deviceDue,
	},
	{
		"P02", "The device protects the conductor",
		"an overload heats the cable past its insulation and no device opens",
		"a device rated above the cable makes the cable the fuse",
		true,
		protects,
	},
	{
		"P24", "One device protects cables in parallel",
		"one of the cables takes more than its share and burns, and no device opens",
		"cables that are not alike do not share evenly, and a broken one leaves its load to the others",
		true,
		guardsAll,
	},
	{
		"P04", "The device can break the fault",
		"the device arcs or bursts on a short circuit and the fault goes on",
		"a breaking capacity holds at a voltage and is the most that the device can interrupt",
		true,
		breaks,
	},
	{
		"P05", "The device is rated for the voltage",
		"it arcs and does not clear the fault",
		"a device for a lower voltage cannot put out the arc",
		true,
		ratedVolts,
	},
	{
		"P09", "The device opens before the cable is hurt",
		"the fault goes on while the cable burns",
		"the smallest fault, at the far end, is the one that a fuse takes longest to clear",
		true,
		clears,
	},
	{
		"P26", "The contact closes on a filled inverter",
		"the contact welds: it can no longer be opened, in a fault either",
		"a discharged capacitor is a short circuit at the first moment; a resistor fills it first",
		true,
		closesGently,
	},
	{
		"P27", "The link bears the moment that it closes",
		"the contact welds or the fuse of the link opens when the banks are joined",
		"a full battery and its charging sources drive their whole difference of voltage through the link into an empty one",
		true,
		linksBear,
	},
	{
		"C02", "No charging in cold or heat",
		"charging a cold lithium cell plates metal inside it: lasting loss, and a short circuit later; heat ages it fast, or worse",
		"the chemistry accepts no charge below its least temperature or above its highest",
		false,
		coldCharge,
	},
	{
		"W01", "The cable carries its current",
		"the insulation softens and the cable fails, with or without a device",
		"the ampacity holds for the ambient, the grouping and the terminals",
		true,
		carries,
	},
	{
		"P15", "The isolator carries everything at once",
		"it overheats, melts or welds, and cannot be opened",
		"it carries all that is on behind it without end, and more while something starts",
		true,
		isolates,
	},
	{
		"P14", "The switch bears its kind of load",
		"its contacts weld shut or burn away",
		"a cold lamp or a starting motor draws several times its current, a coil draws an arc; an a.c. rating does not serve",
		true,
		switches,
	},
	{
		"P06", "The device stands close to its source",
		"the length before the device is unprotected",
		"what lies between source and device has no protection",
		true,
		closeEnough,
	},
	{
		"W03", "The conductor is not too small for the rule",
		"thin conductors break under vibration",
		"codes set a least size for strength",
		true,
		bigEnough,
	},
	{
		"P23", "The device is within the cap for a small conductor",
		"a thin conductor is left without the margin that the code wants",
		"some codes cap the device by the size, whatever the ampacity",
		true,
		withinCap,
	},
	{
		"C07", "The modules' voltage in the cold",
		"the controller is destroyed, and may pass the string's voltage to the battery",
		"open-circuit voltage rises in the cold",
		false,
		coldString,
	},
	{
		"P19", "Each unit survives a load dump",
		"a battery that drops out while the alternator charges destroys the electronics",
		"the alternator's field dies away slowly, and its voltage leaps meanwhile",
		false,
		survivesDump,
	},
	{
		"P17", "Each unit suits its supply",
		"it is destroyed or drops out",
		"its data sheet or its code states from what voltage to what it works",
		true,
		suitsSupply,
	},
	{
		"P20", "Strings in parallel are guarded",
		"the other strings feed a faulty module until it burns",
		"from three strings on they can push more into one than its modules bear",
		false,
		stringDevices,
	},
	{
		"B14", "The axles bear the job",
		"an overloaded axle: an offence, longer stopping, a burst tyre",
		"each axle and the whole have a limit of their own on the plate",
		false,
		axles,
	},
	{
		"B08", "The bay lets its gas out",
		"hydrogen gathers and a spark sets it off",
		"lead-acid cells give off hydrogen while they charge",
		false,
		vented,
	},
	{
		"B13", "The batteries stay where they are in a crash",
		"a battery becomes a projectile",
		"the force on a fixing is mass times the acceleration that the approval body asks",
		false,
		heldDown,
	},
	{
		"B09", "The bay stays as cool as its cables were judged at",
		"cables and devices are hotter than their ratings were reckoned for",
		"what stands in a bay heats it, on the mean of a day and at full load",
		false,
		coolEnough,
	},
	{
		"B01", "Each battery bears its discharge",
		"its management unit opens and everything goes dark, or it overheats",
		"a battery's share follows the resistances, not the labels",
		true,
		dischargeInside,
	},
	{
		"B17", "Each battery's resistance is known",
		"faults and voltages rest on a guess",
		"one figure decides what a fuse must break, another what voltage is left",
		false,
		resistanceKnown,
	},
	{
		"B02", "The bank bears the loss of a battery",
		"the remaining battery trips or overheats when its neighbour is gone",
		"one of two batteries can switch itself off at any time",
		true,
		dischargeWithout,
	},
	{
		"C01", "The batteries bear all chargers together",
		"a battery is charged faster than it may be",
		"chargers on one bank add up, also when a battery is missing",
		false,
		chargeInside,
	},
	{
		"P01", "The device carries its load",
		"the device opens in normal use",
		"a device loaded near its rating ages and opens when it is warm",
		true,
		carriesLoad,
	},
	{
		"P08", "The device rides through a start",
		"the device opens, now or after some starts, when a motor starts",
		"a start draws several times the running current",
		true,
		ridesThrough,
	},
	{
		"P03", "The device opens in time on an overload",
		"a lasting overload of up to half more than the ampacity is not cleared",
		"a device need not open at its rating, only at its conventional operating current",
		true,
		opensInTime,
	},
	{
		"P13", "The device nearer the load opens first",
		"a fault in one circuit puts out those beside it as well",
		"of two devices in series the one at the fault should open and leave the other closed",
		true,
		selective,
	},
	{
		"B04", "Loads switch off before the battery does",
		"the battery's own unit cuts everything off at once, chargers included",
		"the order of switching off goes from loads to battery",
		false,
		cutOutOrder,
	},
	{
		"B18", "The inverter is large enough",
		"the inverter switches off when everything runs or something starts",
		"it has a continuous and a short-time rating in watts",
		false,
		inverterBigEnough,
	},
	{
		"B05", "The inverter holds through a surge",
		"the inverter switches off when a motor starts",
		"its terminals see the battery's voltage less the drop of the whole path",
		true,
		surgeHolds,
	},
	{
		"W02", "The voltage drop is within the limit",
		"lamps dim, motors heat, electronics reset",
		"the whole path counts, with everything on that runs together",
		true,
		dropInside,
	},
	{
		"W04", "Every load gets its lowest voltage",
		"the load does not start or drops out",
		"the bank is nearly empty and aged, and the path is warm",
		true,
		voltsLeft,
	},
	{
		"C04", "The alternator bears the converter on the road",
		"the alternator runs at its limit until its windings fail",
		"a hot alternator gives less than its plate says",
		true,
		roadSpare,
	},
	{
		"C03", "The alternator bears the converter at idle",
		"the starter battery pays for the charge and is flat in the end",
		"at idle an alternator gives a fraction of its rating",
		true,
		idleSpare,
	},
	{
		"C05", "The converter wakes when the engine runs",
		"the bank is never charged on the road",
		"a vehicle that varies its alternator's voltage runs below the waking voltage",
		true,
		wakes,
	},
	{
		"C10", "The converter's input is high enough",
		"the converter throttles or stops",
		"its input draws more current as the voltage falls",
		true,
		inputHigh,
	},
	{
		"C08", "The bank holds through the month",
		"the bank sinks from day to day until it is empty",
		"what the sources put back in their hours must cover a day's use, in the worst month too",
		false,
		holdsBalance,
	},
	{
		"B03", "The bank lasts as long as the customer asks",
		"the bank is empty before the time",
		"usable energy is depth, age and temperature of the rated one",
		false,
		lasts,
	},
	{
		"B10", "The batteries fit their space",
		"the lid does not close, a strap crosses the posts, a cable is bent too sharply",
		"the delivered case counts, with clearances and the bend of the cable, not the drawn one",
		false,
		fits,
	},
	{
		"B07", "The battery does not freeze",
		"ice splits the cells, and acid runs out when they thaw",
		"the emptier a lead-acid battery, the nearer its acid is to water: judged at the least charge that the design lets it have",
		false,
		freezes,
	},
	{
		"B19", "The bank outlasts the time it stands",
		"the bank is flat, and a flat battery is lost",
		"standby and self-discharge go on with everything off",
		false,
		standsParked,
	},
	{
		"C06", "The sources refill a day in the hours asked",
		"the bank is a little emptier every day",
		"chargers feed the running loads first",
		false,
		refills,
	},
}

// wired are the rules that another cable or device can change.
var wired = slices.DeleteFunc(slices.Clone(rules), func(r rule) bool { return !r.wiring })
