package job

import (
	"example.org/extralow/tables"
	"github.com/shopspring/decimal"
)

// Job is one installation as a job file describes it. The tags drive the
// reader and its description: `job` names the key (alternatives with |, "?"
// before an optional one), `want` the values it takes, `is` what it means. What a
// list may hold at most is many times what a vehicle has.
// A key that the reader must give is a plain value; an optional number is a
// NullDecimal.
type Job struct {
	Name     string              `job:"job" is:"what the job is called"`
	Date     string              `job:"?date" want:"date" is:"when the file was written"`
	SystemV  decimal.Decimal     `job:"system_v" want:"12|24" is:"nominal voltage"`
	RuleSet  string              `job:"rules" is:"key of the rule set that judges it"`
	Craft    string              `job:"craft" want:"vehicle|trailer|boat" is:"what carries the installation"`
	ColdestC decimal.Decimal     `job:"coldest_c|coldest_f" want:"-40..40" is:"coldest air in which the batteries stand, parked too: decides whether they freeze, and how cold lithium is when a charge begins"`
	BankC    decimal.NullDecimal `job:"?bank_c|bank_f" want:"-40..60" is:"coldest that the house bank gets while it serves or is charged: decides its capacity and what it takes; without it coldest_c"`
	OutsideC decimal.NullDecimal `job:"?outside_coldest_c|outside_coldest_f" want:"-40..40" is:"coldest air over the roof, which decides the voltage of solar modules; without it coldest_c"`

	Batteries   []Battery    `job:"batteries" want:"at most 16" is:"every battery, starter battery included"`
	Alternators []Alternator `job:"?alternators" want:"at most 4" is:"engine-driven generators"`
	Chargers    []Charger    `job:"?chargers" want:"at most 16" is:"converters and mains chargers"`
	Solar       []Solar      `job:"?solar" want:"at most 16" is:"module arrays with their controllers"`
	Inverters   []Inverter   `job:"?inverters" want:"at most 8" is:"inverters; what they feed names them"`
	Loads       []Load       `job:"loads" want:"at most 200" is:"everything that draws current"`
	Circuits    []Circuit    `job:"circuits" want:"at most 1000" is:"every cable run, one line each"`
	States      []State      `job:"states" want:"at most 50" is:"what runs together, and for how long a day"`
	Spaces      []Space      `job:"?spaces" want:"at most 20" is:"engine spaces, lockers and the like, where petrol vapour or liquefied gas may gather in one"`
	Bay         *Bay         `job:"?bay" is:"space in which the house bank stands"`
	Weights     *Weights     `job:"?weights" is:"axles as weighed, and what the job adds"`
	Needs       Needs        `job:"needs" is:"what the customer asks of it"`
}

// Battery is one battery, with its management unit where it has one. A low
// resistance decides faults, a high one decides volts.
type Battery struct {
	Name           string              `job:"name" is:"also the node at its posts"`
	Bank           string              `job:"bank" want:"house|starter" is:"what it serves"`
	Chemistry      tables.Chemistry    `job:"chemistry" want:"lead-acid flooded|lead-acid AGM|lead-acid gel|LiFePO4" is:"chemistry"`
	NominalV       decimal.Decimal     `job:"nominal_v" want:"1..60" is:"nominal voltage of the block"`
	CapacityAh     decimal.Decimal     `job:"capacity_ah" want:"1..5000" is:"rated capacity"`
	RatedH         decimal.Decimal     `job:"rated_h" want:"1..120" is:"hour rate at which the capacity is rated"`
	FastAh         decimal.NullDecimal `job:"?fast_ah" want:"0.1..5000" is:"capacity at a faster hour rate, of its data sheet; for lead-acid that is emptied in fewer hours than rated_h"`
	FastH          decimal.NullDecimal `job:"?fast_h" want:"0.1..120" is:"hours of that faster rate"`
	LowMilliohm    decimal.NullDecimal `job:"?low_milliohm" want:"0.01..1000" is:"resistance new, warm and full: decides the fault current"`
	HighMilliohm   decimal.NullDecimal `job:"?high_milliohm" want:"0.01..1000" is:"resistance aged, cold and nearly empty: decides the volts"`
	FullV          decimal.Decimal     `job:"full_v" want:"1..60" is:"rested voltage full"`
	EmptyV         decimal.Decimal     `job:"empty_v" want:"1..60" is:"rested voltage at the depth of discharge allowed"`
	DepthPercent   decimal.Decimal     `job:"depth_percent" want:"1..100" is:"depth of discharge that the design uses"`
	AgeingPercent  decimal.Decimal     `job:"ageing_percent" want:"50..100" is:"capacity still there at the end of its life"`
	MaxDischargeA  decimal.NullDecimal `job:"?max_discharge_a" want:"0.1..10000" is:"greatest steady discharge"`
	MaxChargeA     decimal.NullDecimal `job:"?max_charge_a" want:"0.1..10000" is:"greatest charge"`
	CutOutV        decimal.NullDecimal `job:"?cut_out_v" want:"1..60" is:"voltage at which its management unit opens"`
	ChargeLeastV   decimal.NullDecimal `job:"?charge_least_v" want:"1..60" is:"lowest charging voltage of its data sheet"`
	ChargeMostV    decimal.NullDecimal `job:"?charge_most_v" want:"1..60" is:"highest charging voltage of its data sheet, equalising apart"`
	ChargeCutOutV  decimal.NullDecimal `job:"?charge_cut_out_v" want:"1..60" is:"voltage at which its management unit opens under charge"`
	ChargeCutOutA  decimal.NullDecimal `job:"?charge_cut_out_a" want:"0.1..10000" is:"charging current at which its management unit opens"`
	LeastChargeC   decimal.NullDecimal `job:"?least_charge_c|least_charge_f" want:"-40..40" is:"coldest at which it may be charged"`
	ColdGuard      bool                `job:"?cold_guard" is:"its management unit blocks charging in the cold"`
	HottestC       decimal.NullDecimal `job:"?hottest_c|hottest_f" want:"-40..90" is:"hottest air in which it stands; without it the hottest that the file states round its posts and the bay"`
	LengthMM       decimal.NullDecimal `job:"?length_mm|length_in" want:"1..2000" is:"case as delivered, over everything"`
	WidthMM        decimal.NullDecimal `job:"?width_mm|width_in" want:"1..2000" is:"case as delivered"`
	HeightMM       decimal.NullDecimal `job:"?height_mm|height_in" want:"1..2000" is:"case with terminals and what is bolted to them"`
	MassKg         decimal.NullDecimal `job:"?mass_kg|mass_lb" want:"0.1..2000" is:"mass"`
	VehicleParkedA decimal.NullDecimal `job:"?vehicle_parked_a" want:"0..10" is:"what the vehicle itself draws from it while parked, as measured; without it, and where no other battery of its bank has it, only what the file lists counts"`
	PostSensor     bool                `job:"?post_sensor" is:"a sensor on its negative post counts its current"`
	Sparks
}

// Sparks is what is known of a thing that may ignite what surrounds it.
type Sparks struct {
	Ignition string `job:"?ignition" want:"protected|unprotected" is:"whether it is marked as ignition protected; asked where petrol vapour or liquefied gas may gather"`
}

// Space is a room of the vehicle or boat, with what is at its nodes: articles, loads,
// devices at the ends of circuits, and switches of circuits that end there.
type Space struct {
	Name    string   `job:"name" is:"engine space, gas locker ..."`
	Gathers string   `job:"gathers" want:"petrol vapour|liquefied gas|neither" is:"what may gather in it: a tank, engine, outboard can or cylinder stands there, or nothing tight parts it from one"`
	Nodes   []string `job:"?nodes" is:"every node in it"`
}

// Alternator is an engine-driven generator on the starter battery's side.
type Alternator struct {
	Name         string              `job:"name" is:"also the node at its output"`
	RatedA       decimal.Decimal     `job:"rated_a" want:"1..1000" is:"marked output, cold, at rated speed"`
	IdleA        decimal.NullDecimal `job:"?idle_a" want:"0..1000" is:"marked output at idle"`
	HotPercent   decimal.NullDecimal `job:"?hot_percent" want:"10..100" is:"share of the marked output that it holds hot, where stated"`
	VehicleA     decimal.Decimal     `job:"vehicle_a" want:"0..1000" is:"what the vehicle itself draws while the engine runs"`
	RunsAtV      decimal.Decimal     `job:"runs_at_v" want:"1..60" is:"voltage that it holds"`
	Variable     bool                `job:"variable" is:"whether the vehicle varies its voltage"`
	LeastV       decimal.NullDecimal `job:"?least_v" want:"1..60" is:"lowest voltage while it runs, where it varies"`
	SelfLimiting bool                `job:"?self_limiting" is:"cannot give more than its marked output into a short circuit"`
	ShortA       decimal.NullDecimal `job:"?short_a" want:"1..10000" is:"greatest current that it gives into a short circuit, of its data sheet, where it does not limit itself"`
	ClampsDump   bool                `job:"?clamps_load_dump" is:"holds a load dump down itself (central suppression of ISO 16750-2)"`
	Sparks
}

// Regulation is how a charger's voltage departs from the one that it is set to.
type Regulation struct {
	EqualiseV  decimal.NullDecimal `job:"?equalise_v" want:"1..80" is:"voltage to which it rises at times by itself to equalise"`
	MilliVPerC decimal.NullDecimal `job:"?compensation_mv_per_c" want:"-500..0" is:"change of its whole output voltage with the battery's temperature; 0: none"`
	ToleranceV decimal.NullDecimal `job:"?tolerance_v" want:"0..5" is:"how far its voltage may stray upwards"`
}

// Charger is a converter fed by the engine's side, or a charger on the mains.
type Charger struct {
	Name              string          `job:"name" is:"also the node at its output"`
	Kind              string          `job:"kind" want:"converter|mains" is:"what feeds it; both charge a battery: a converter that feeds loads by itself cannot be stated"`
	FedAt             string          `job:"?fed_at" is:"node at the converter's input"`
	Lead              string          `job:"?lead" want:"own device where it begins|looped through its terminals" is:"what joins that input to posts, or to a node where several circuits meet, where no circuit is stated for that"`
	MaxA              decimal.Decimal `job:"max_a" want:"0.1..1000" is:"greatest output"`
	OutputV           decimal.Decimal `job:"output_v" want:"1..60" is:"absorption voltage"`
	EfficiencyPercent decimal.Decimal `job:"efficiency_percent" want:"50..100" is:"efficiency at full output"`
	Regulation
	LeastInputV decimal.NullDecimal `job:"?least_input_v" want:"1..60" is:"lowest input at which a converter holds its output"`
	WakesBy     string              `job:"?wakes_by" want:"voltage|engine signal" is:"what switches a converter on"`
	WakeV       decimal.NullDecimal `job:"?wake_v" want:"1..60" is:"input at which it wakes"`
	SleepV      decimal.NullDecimal `job:"?sleep_v" want:"1..60" is:"input at which it sleeps"`
	RemoteSense bool                `job:"?remote_sense" is:"senses the voltage at the battery"`
	SurvivesV   decimal.NullDecimal `job:"?survives_v" want:"1..1000" is:"load dump that a converter survives, of its data sheet"`
	Sparks
}

// Solar is an array of modules with its charge controller.
type Solar struct {
	Name              string              `job:"name" is:"also the node at the controller's output"`
	Place             string              `job:"place" is:"where it is mostly used: a place of the insolation tables"`
	ModuleW           decimal.Decimal     `job:"module_w" want:"1..1000" is:"power of one module at test conditions"`
	OpenV             decimal.Decimal     `job:"open_v" want:"1..200" is:"open-circuit voltage of one module"`
	ShortA            decimal.Decimal     `job:"short_a" want:"0.1..50" is:"short-circuit current of one module"`
	WorkingV          decimal.Decimal     `job:"working_v" want:"1..200" is:"voltage of one module at its greatest power"`
	PowerPercentPerC  decimal.Decimal     `job:"power_percent_per_c" want:"-2..0" is:"change of power with temperature"`
	OpenPercentPerC   decimal.NullDecimal `job:"?open_percent_per_c" want:"-1..-0.1" is:"change of open-circuit voltage; without it the code's table serves"`
	InSeries          decimal.Decimal     `job:"in_series" want:"1..50 whole" is:"modules in one string"`
	Strings           decimal.Decimal     `job:"strings" want:"1..100 whole" is:"strings in parallel"`
	ModuleFuseA       decimal.NullDecimal `job:"?module_fuse_a" want:"1..100" is:"greatest series device on the module's plate"`
	StringFuseA       decimal.NullDecimal `job:"?string_fuse_a" want:"1..100" is:"device fitted in each string"`
	ControllerV       decimal.Decimal     `job:"controller_v" want:"10..1000" is:"greatest input voltage of the controller"`
	Tracking          bool                `job:"tracking" is:"the controller finds the modules' greatest power; false: it only switches"`
	MaxA              decimal.Decimal     `job:"max_a" want:"1..500" is:"greatest output of the controller"`
	OutputV           decimal.Decimal     `job:"output_v" want:"1..60" is:"absorption voltage"`
	EfficiencyPercent decimal.Decimal     `job:"efficiency_percent" want:"50..100" is:"of the controller"`
	Regulation
	RemoteSense   bool            `job:"?remote_sense" is:"senses the voltage at the battery"`
	LossesPercent decimal.Decimal `job:"losses_percent" want:"0..90" is:"shading, dirt, wires"`
	CellC         decimal.Decimal `job:"cell_c|cell_f" want:"0..100" is:"temperature of the cells on a working day"`
	Sparks
}

// Supplied is what a unit bears of its supply, by its data sheet.
type Supplied struct {
	WorksFromV        decimal.NullDecimal `job:"?works_from_v" want:"1..60" is:"lowest supply voltage of its data sheet"`
	WorksToV          decimal.NullDecimal `job:"?works_to_v" want:"1..60" is:"highest supply voltage of its data sheet"`
	SupplyCode        string              `job:"?supply_code" want:"A|B|C|D|E|F|G|H" is:"its supply-voltage code of ISO 16750-2: A to D for 12 V, E to H for 24 V"`
	SurvivesV         decimal.NullDecimal `job:"?survives_v" want:"1..1000" is:"load dump that it survives, of its data sheet"`
	SurvivesReversedV decimal.NullDecimal `job:"?survives_reversed_v" want:"0..1000" is:"supply the wrong way round that it survives, of its data sheet"`
	SurvivesJumpV     decimal.NullDecimal `job:"?survives_jump_v" want:"1..1000" is:"supply in a jump start that it survives, of its data sheet"`
}

// What a lead may be that no circuit states.
const (
	OwnDevice     = "own device where it begins"
	LoopedThrough = "looped through its terminals"
)

// Inverter feeds loads with mains voltage out of the bank.
type Inverter struct {
	Name              string              `job:"name" is:"also the node at its input"`
	RatedW            decimal.Decimal     `job:"rated_w" want:"1..20000" is:"continuous output in watts, not VA"`
	SurgeW            decimal.Decimal     `job:"surge_w" want:"1..40000" is:"short-time output in watts"`
	EfficiencyPercent decimal.Decimal     `job:"efficiency_percent" want:"50..100" is:"efficiency at full load"`
	IdleW             decimal.Decimal     `job:"idle_w" want:"0..500" is:"what it draws switched on without load"`
	CutOutV           decimal.Decimal     `job:"cut_out_v" want:"1..60" is:"input at which it switches off"`
	Isolated          bool                `job:"?isolated" is:"a switch cuts it off while the vehicle is parked"`
	InputUF           decimal.NullDecimal `job:"?input_uf" want:"1..1000000" is:"capacitance at its input"`
	PrechargeOhm      decimal.NullDecimal `job:"?precharge_ohm" want:"0.1..10000" is:"resistor that fills that capacitance before the contact closes"`
	Lead              string              `job:"?lead" want:"own device where it begins|looped through its terminals" is:"what joins it to a node where several circuits meet, where no circuit is stated for that"`
	Supplied
	Sparks
}

// Load is one thing that draws current, at a node or through an inverter.
type Load struct {
	Name        string              `job:"name" is:"what it is"`
	At          string              `job:"?at" is:"node where it is connected"`
	Lead        string              `job:"?lead" want:"own device where it begins|looped through its terminals" is:"what joins it to posts, or to a node where several circuits meet, where no circuit is stated for that"`
	Inverter    string              `job:"?inverter" is:"inverter that feeds it, in place of a node"`
	PowerW      decimal.NullDecimal `job:"?power_w" want:"0.01..20000" is:"power while it runs"`
	CurrentA    decimal.NullDecimal `job:"?current_a" want:"0.001..2000" is:"current while it runs, in place of power"`
	Behaves     string              `job:"behaves" want:"power|current|resistance" is:"what stays the same as the voltage falls"`
	HoursADay   decimal.Decimal     `job:"hours_a_day" want:"0..24" is:"hours a day in use"`
	Percent     decimal.Decimal     `job:"duty_percent" want:"0.1..100" is:"share of that time in which it really runs"`
	LongestRunS decimal.NullDecimal `job:"?longest_run_s" want:"0.1..86400" is:"longest that it runs on end: unstated, or above 600 s, it lasts, and its device carries no more of it than 80 % of the rating; it heats by its mean where duty_percent says that it rests between runs"`
	SurgeW      decimal.NullDecimal `job:"?surge_w" want:"0.01..40000" is:"power while it starts"`
	SurgeS      decimal.NullDecimal `job:"?surge_s" want:"0.001..600" is:"how long it takes to start"`
	StallA      decimal.NullDecimal `job:"?stall_a" want:"0.1..10000" is:"current of its motor with the rotor held, of its data sheet"`
	StallS      decimal.NullDecimal `job:"?stall_s" want:"0.01..100000" is:"how long the motor bears that, or its own protector lets it"`
	StandbyW    decimal.NullDecimal `job:"?standby_w" want:"0..100" is:"power when it is off but connected"`
	Isolated    bool                `job:"?isolated" is:"a switch cuts its standby off while the vehicle is parked"`
	LeastV      decimal.NullDecimal `job:"?least_v" want:"1..60" is:"lowest voltage at which it works"`
	ShedsV      decimal.NullDecimal `job:"?sheds_v" want:"1..60" is:"voltage at which a device switches it off"`
	Supplied
	MustRun  bool `job:"?must_run" is:"the last to be switched off"`
	Safety   bool `job:"?safety" is:"people's safety hangs on it: a bilge pump, a navigation light, a medical device; whatever stops it is a danger"`
	Cranking bool `job:"?cranking" is:"the engine's starter motor, on a cable of its own that is marked cranking too: power_w or current_a is what it cranks with, and no state lists it"`
	Critical bool `job:"critical" is:"falls under the stricter drop limit where a rule set has two"`
	Sparks
}

// Circuit is one cable run between two nodes, out and back.
type Circuit struct {
	Name             string              `job:"name" is:"what the schedule calls it"`
	From             string              `job:"from" is:"node nearer the source"`
	To               string              `job:"to" is:"node nearer the load"`
	LengthM          decimal.Decimal     `job:"length_m|length_ft" want:"0.01..200" is:"one-way length along the cable"`
	Size             tables.Size         `job:"size" want:"size" is:"16 mm2, AWG 6 or SAE 6"`
	Strands          decimal.Decimal     `job:"strands" want:"2|5" is:"IEC 60228 class: 2 stranded, 5 flexible"`
	InsulationC      decimal.Decimal     `job:"insulation_c" want:"60..250" is:"temperature rating of the insulation"`
	Insulation       string              `job:"?insulation" want:"PVC 70 C|PVC 90 C|EPR or XLPE 90 C|rubber 60 C|rubber 85 C|silicone 180 C" is:"what it is made of; without it the weakest of its temperature counts in a fault"`
	InBayM           decimal.NullDecimal `job:"?in_bay_m|in_bay_ft" want:"0..200" is:"length of it that lies in the bay and warms that; unstated: all of it where it ends there"`
	Method           string              `job:"method" want:"A|B|C|F" is:"how it lies: A in an insulated wall, B in conduit or trunking, C clipped to a surface, F in free air"`
	AmbientC         decimal.Decimal     `job:"ambient_c|ambient_f" want:"-40..120" is:"hottest air round it"`
	Grouped          decimal.Decimal     `job:"grouped" want:"1..60 whole" is:"circuits that lie together, itself counted"`
	EngineSpace      bool                `job:"?engine_space" is:"runs through an engine space"`
	Sheathed         bool                `job:"?sheathed" is:"in a sheath or enclosure all the way"`
	Return           string              `job:"return" want:"cable|chassis" is:"what brings the current back"`
	ChassisMilliohm  decimal.NullDecimal `job:"?chassis_milliohm" want:"0..100" is:"measured resistance of a chassis return"`
	ReturnSize       tables.Size         `job:"?return_size" want:"size" is:"thinnest cable of a chassis return: from the load to the chassis, or from that to the battery"`
	ReturnAt         string              `job:"?return_at" want:"post|past the sensor" is:"where its return is joined to a battery with a post_sensor: to the post itself, or to the chassis or stud beyond the sensor"`
	ContactsMilliohm decimal.Decimal     `job:"contacts_milliohm" want:"0..100" is:"lugs, switch, device: all contacts of the loop"`
	TerminalC        decimal.NullDecimal `job:"?terminal_c" want:"40..150" is:"rating of the terminals, tinned copper at the most; unstated: as the rule set says"`
	Cranking         bool                `job:"?cranking" is:"serves nothing but the cranking of the engine"`
	Purpose          string              `job:"purpose" want:"supply|charge line" is:"decides which drop limit holds"`
	PassesEdge       bool                `job:"?passes_edge" is:"passes an edge, a bulkhead or another hard surface; said by edge_guard too"`
	EdgeGuard        string              `job:"?edge_guard" want:"grommet|sheath|gland|none" is:"what guards it there"`
	Device           *Device             `job:"?device" is:"overcurrent device at the from end"`
	FarDevice        *Device             `job:"?far_device" is:"overcurrent device at the to end"`
	Cables           *Cables             `job:"?cables" is:"where it is run in several cables side by side"`
	Switch           *Switch             `job:"?switch" is:"switch or relay in it"`
}

// Cables are several cables of one size side by side, out and back alike.
type Cables struct {
	Count     decimal.Decimal `job:"count" want:"2..10 whole" is:"how many; grouped must count each of them"`
	Identical bool            `job:"identical" is:"of one length, route and joints, nothing branching off; false: length_m is that of the shortest"`
}

// Switch is a contact in a run.
type Switch struct {
	Kind        string              `job:"kind" want:"isolator|toggle|relay|contactor" is:"an isolator opens without load; the others make and break it"`
	RatingA     decimal.Decimal     `job:"rating_a" want:"0.1..10000" is:"rated current without end, d.c."`
	ShortTimeA  decimal.NullDecimal `job:"?short_time_a" want:"0.1..10000" is:"current that it bears while a load starts, an engine for 30 s"`
	StartA      decimal.NullDecimal `job:"?start_a" want:"0.1..10000" is:"starting current through an isolator that no load of the file states: an engine's starter"`
	MakesA      decimal.NullDecimal `job:"?makes_a" want:"0.1..100000" is:"current on which a toggle, relay or contactor may close, d.c., of its data sheet"`
	UsuallyOpen bool                `job:"?usually_open" is:"a link between two banks that is closed in need alone: charging is judged with it open"`
	Load        string              `job:"?load" want:"lamp|inductive|resistive|motor" is:"what the others switch"`
	Reached     string              `job:"?reached" want:"by hand|with tools" is:"how an isolator is reached in need: by hand, or only with a tool or once something else is out of the way"`
	Sparks
}

// Device is an overcurrent device at one end of a run.
type Device struct {
	Family         string              `job:"family" is:"standard and type: ISO 8820-3 C, UL 248-15 T 300 V ...; go run ./examples/tablebook device-families lists them"`
	RatingA        decimal.Decimal     `job:"rating_a" want:"0.1..2000" is:"rated current"`
	HolderA        decimal.NullDecimal `job:"?holder_a" want:"0.1..2000" is:"rating of the holder or block that it stands in"`
	OwnRating      bool                `job:"?own_rating" is:"the article's own data sheet lists that rating, which the standard of its family does not"`
	RatedV         decimal.NullDecimal `job:"?rated_v" want:"1..1000" is:"rated d.c. voltage, where it is not the family's"`
	BreaksA        decimal.NullDecimal `job:"?breaks_a" want:"1..500000" is:"breaking capacity of the article's own data sheet"`
	BreaksAtV      decimal.NullDecimal `job:"?breaks_at_v" want:"1..1000" is:"d.c. voltage at which that holds"`
	BackedUpA      decimal.NullDecimal `job:"?backed_up_a" want:"1..500000" is:"fault current to which its maker tested it behind the device of backed_up_by"`
	BackedUpAtV    decimal.NullDecimal `job:"?backed_up_at_v" want:"1..1000" is:"d.c. voltage of that test"`
	BackedUpBy     string              `job:"?backed_up_by" is:"circuit upstream with the device of that test"`
	PreArcingA2S   decimal.NullDecimal `job:"?pre_arcing_a2s" want:"0.1..1000000000" is:"least energy that makes it open, of the article's own data sheet"`
	TotalA2S       decimal.NullDecimal `job:"?total_a2s" want:"0.1..1000000000" is:"most energy that it lets through in a short circuit, arc included, of the article's own data sheet"`
	HoldsA         decimal.NullDecimal `job:"?holds_a" want:"0.1..100000" is:"current that it carries for holds_s, of its own curve"`
	HoldsS         decimal.NullDecimal `job:"?holds_s" want:"0.001..1000000" is:"how long it carries holds_a"`
	OpensA         decimal.NullDecimal `job:"?opens_a" want:"0.1..100000" is:"current at which it has opened by opens_by_s, of its own curve"`
	OpensByS       decimal.NullDecimal `job:"?opens_by_s" want:"0.001..1000000" is:"by when it has opened at opens_a"`
	AlongMM        decimal.Decimal     `job:"along_mm|along_in" want:"0..20000" is:"length of conductor between the source and the device"`
	AmbientC       decimal.NullDecimal `job:"?ambient_c|ambient_f" want:"-40..120" is:"air round it, where it is not the run's"`
	AmbientPercent decimal.NullDecimal `job:"?ambient_percent" want:"10..200" is:"share of its rating that it carries in that air, of the article's own data sheet"`
	Sparks
}

// OwnCurve reports whether the article states times or energies of its own.
func (d Device) OwnCurve() bool {
	return d.HoldsA.Valid || d.OpensA.Valid || d.PreArcingA2S.Valid || d.TotalA2S.Valid
}

// Refit puts one of another rating in its place, of the same make: what its own
// curve says of times and energies, and what was tested with it, is not known of
// the other. The holder stays.
func (d *Device) Refit(ratingA decimal.Decimal) {
	*d = Device{
		Family: d.Family, RatingA: ratingA, RatedV: d.RatedV, BreaksA: d.BreaksA, BreaksAtV: d.BreaksAtV,
		AlongMM: d.AlongMM, AmbientC: d.AmbientC, AmbientPercent: d.AmbientPercent,
		HolderA: d.HolderA, Sparks: d.Sparks,
	}
}

// State is one way in which the installation is used: what runs together.
type State struct {
	Name     string          `job:"name" is:"driving, on site, overnight ..."`
	HoursDay decimal.Decimal `job:"hours_a_day" want:"0..24" is:"hours a day"`
	Sources  []string        `job:"?sources" is:"alternators and chargers that run; batteries always do, and the sun charges its bank by day whether a state lists it or not"`
	Loads    []string        `job:"?loads" is:"loads that may run together"`
	Engine   string          `job:"?engine" want:"off|idle|road" is:"what the engine does"`
	Parked   bool            `job:"?parked" is:"its loads run on through parked_days"`
}

// Needs is what the customer asks.
type Needs struct {
	AutonomyDays decimal.Decimal     `job:"autonomy_days" want:"0.1..60" is:"days without any charging; of a part of a day the hours count that take most"`
	ParkedDays   decimal.NullDecimal `job:"?parked_days" want:"0.1..365" is:"days that it must stand with everything off"`
	RefillH      decimal.Decimal     `job:"refill_h" want:"0.1..200" is:"hours of charging that must refill a day's use"`
}

// Bay is the measured space of the house bank. Cases stand in one layer, their
// cables leaving along the length.
type Bay struct {
	LengthMM    decimal.Decimal     `job:"length_mm|length_in" want:"1..5000" is:"inside"`
	WidthMM     decimal.Decimal     `job:"width_mm|width_in" want:"1..5000" is:"inside"`
	HeightMM    decimal.Decimal     `job:"height_mm|height_in" want:"1..5000" is:"inside"`
	ToleranceMM decimal.Decimal     `job:"tolerance_mm|tolerance_in" want:"0..100" is:"how much smaller it may turn out"`
	CaseMM      decimal.Decimal     `job:"case_tolerance_mm|case_tolerance_in" want:"0..100" is:"how much bigger a case may arrive"`
	Along       decimal.Decimal     `job:"along" want:"1..24 whole" is:"cases side by side in the length"`
	Across      decimal.Decimal     `job:"across" want:"1..24 whole" is:"cases side by side in the width"`
	GapMM       decimal.Decimal     `job:"gap_mm|gap_in" want:"0..200" is:"between cases"`
	WallMM      decimal.Decimal     `job:"wall_mm|wall_in" want:"0..200" is:"to every wall: straps, hands, tools"`
	AboveMM     decimal.Decimal     `job:"above_mm|above_in" want:"0..500" is:"over the highest live part"`
	CableMM     decimal.Decimal     `job:"cable_mm|cable_in" want:"0..60" is:"outer diameter of the thickest cable"`
	BendTimes   decimal.Decimal     `job:"bend_times" want:"1..20" is:"least bend radius in diameters, of the cable's maker"`
	LugMM       decimal.Decimal     `job:"lug_mm|lug_in" want:"0..200" is:"from the stud to where the cable may bend"`
	Holds       []string            `job:"?holds" is:"chargers, controllers of solar arrays by the array, inverters and batteries of other banks that stand in it too"`
	OutsideC    decimal.Decimal     `job:"outside_c|outside_f" want:"-40..80" is:"hottest air round it"`
	Position    string              `job:"position" is:"what its walls touch: free on all sides, ..."`
	Material    string              `job:"material" is:"of its walls"`
	OpeningCM2  decimal.NullDecimal `job:"?opening_cm2" want:"0..10000" is:"free area of the smaller vent opening"`
	Fixings     decimal.Decimal     `job:"fixings" want:"2..48 whole" is:"bolts that hold each case"`
	Gravities   decimal.Decimal     `job:"gravities" want:"1..30" is:"acceleration that the approval body asks, in multiples of g"`
	CentreMM    decimal.Decimal     `job:"centre_mm|centre_in" want:"0..2000" is:"centre of mass above the fixings"`
	RowsMM      decimal.Decimal     `job:"rows_mm|rows_in" want:"1..3000" is:"between the two rows of fixings"`
	FixingN     decimal.NullDecimal `job:"?fixing_n" want:"1..1000000" is:"what one fixing and the floor under it bear"`
}

// Weights is the vehicle on the scales, ready for the road, before the job.
type Weights struct {
	WheelbaseM   decimal.Decimal     `job:"wheelbase_m|wheelbase_ft" want:"0.5..20" is:"between the axles; of a trailer, coupling to axle"`
	FrontKg      decimal.Decimal     `job:"front_kg|front_lb" want:"0..20000" is:"front axle, or coupling"`
	RearKg       decimal.Decimal     `job:"rear_kg|rear_lb" want:"0..20000" is:"rear axle"`
	FrontMostKg  decimal.Decimal     `job:"front_limit_kg|front_limit_lb" want:"1..20000" is:"of the plate"`
	FrontLeastKg decimal.NullDecimal `job:"?front_least_kg|front_least_lb" want:"0..20000" is:"least that the front axle or coupling must keep, by its maker or a code"`
	RearMostKg   decimal.Decimal     `job:"rear_limit_kg|rear_limit_lb" want:"1..20000" is:"of the plate"`
	GrossMostKg  decimal.Decimal     `job:"gross_limit_kg|gross_limit_lb" want:"1..40000" is:"of the plate"`
	Weighed      bool                `job:"?batteries_weighed" is:"the house batteries were in it on the scales: they are not among the items"`
	Items        []Item              `job:"items" want:"at most 200" is:"what the job adds"`
}

// Item is a mass that the job adds.
type Item struct {
	Name    string          `job:"name" is:"what it is"`
	MassKg  decimal.Decimal `job:"mass_kg|mass_lb" want:"0.01..5000" is:"mass"`
	BehindM decimal.Decimal `job:"behind_m|behind_ft" want:"-10..30" is:"its centre behind the front axle; before it, negative"`
}

// Node is where the load draws its current: its own node, or its inverter's.
func (l Load) Node() string {
	if l.Inverter != "" {
		return l.Inverter
	}
	return l.At
}
