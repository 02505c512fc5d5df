// Package installation solves the conductors of a whole job at once: circuits that
// share feeders, batteries that share loads, sources, links and starters, in every
// case that can occur. Package wire answers for one cable, or for one network as it
// is drawn; this package finds out what can flow at the most and at the least, makes
// each cable as hot as that makes it, and answers for every circuit and node.
//
// An [Installation] is [Circuit] runs between named nodes; each [Battery] and
// [Source] stands at the node of its own name, each [Load] at a node, and a [State]
// says what runs together. It knows neither batteries nor devices: resistances,
// outputs, what an inverter takes, and the ratings of devices come in as numbers,
// with the lines that gave them in From.
//
// Cases are kept apart by [CaseKind]. Normal ones make the design current: each state
// on the batteries alone and with its sources, charging without loads, on full
// batteries where a load is resistive, on batteries new, aged and mixed, with each link
// as it does not usually stand. Each source, its input and each load by itself at the
// most that it can makes the design current of its own line as well, and of every
// circuit where no state runs it. A lost battery is a fault with a current of its own,
// and so is a full bank that feeds an empty one through a link. Starts and peaks are
// brief and count for volts and devices. An engine is cranked on every battery that a
// switch can join to it.
//
// # Questions and calls
//
// What flows in this circuit at the most, in which case, how hot does that make it,
// and what does it lose: [Installation.Solve], then [Solved.Circuit], or
// [Solved.Currents] without the working.
//
// What voltage does this load get, and in which case the least: [Solved.Volts]; which
// cases there are: [Solved.Cases]; where the volts are lost: [CaseResult.Ladder]; whether
// they suffice: [CaseResult.CheckVoltage].
//
// What happens in one case: [Solved.Case], then [CaseResult.Voltage],
// [CaseResult.Current], [CaseResult.Given], [CaseResult.Drawn] and
// [CaseResult.CollapsedAt]; in one that is
// not listed: [Solved.Ask].
//
// What must a device here be able to break: [Solved.ThroughEnd]; what flows in a short
// circuit here at the most, and which source gives it: [Solved.GreatestFault].
//
// Does the device at this end see enough of a fault at the far end to open:
// [Solved.LeastFault].
//
// Which circuits lie between this load and that battery: [Solved.Between].
//
// What stands behind this end, and how much of it opens no device: [Solved.FedFrom].
// What stays live when this isolator is opened: [Solved.Live].
//
// What flows as this link closes on a full and an empty bank: [Solved.Closing].
//
// The same with a thicker cable: [Solved.With].
//
// # Drawing it
//
// Most installations are drawn with one line for both poles: a circuit is out and
// back together, by a cable like itself or by its ReturnMilliohm. A chassis that
// several circuits share, and a bank that is tapped in its middle, are drawn with
// both poles: loads and batteries name the node that they return to, and the chassis
// is a circuit without sections. What only a converter feeds is a part of its own,
// which is solved before the one that its input draws from.
//
// # Cautions
//
// This is a design aid, not a certificate. An undersized cable burns, and a fuse
// protects no bad joint. An answer holds for what was stated: each circuit that is
// left out of the drawing is left out of the answer. Disconnect and insulate every
// source before work, solar modules included. Local codes come first; mains wiring
// belongs to licensed people.
package installation
