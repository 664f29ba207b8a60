// Package jobsheet reads the files that people write: the yard, its machines,
// its service schedules and its job sheets. This comment is their
// specification. It also writes them: Job and Machine as YAML and as JSON, and a
// schedule as a copy of another.
//
// # The plain part of YAML
//
// A file is one YAML document of at most 64 KiB of UTF-8. Windows line ends
// and a byte-order mark are fine. Refused: unknown keys, a key written twice, a
// second document, tabs, control characters, anchors, aliases, type marks
// ("!"), merge keys ("<<"). Lists of the wrong thing, and keys with nothing after
// them, are refused where something is wanted; a list, "accept" and "notes" may
// stand empty.
//
// A value is the text that stands there. No number passes through a float, and
// no text through a number: 0045120 stays 0045120 with and without quotes. "~" and
// "null" are nothing.
//
// All faults of a file are told at once, each with its place and what to type
// instead:
//
//	jobs/gannet-main.yaml:7:12: filled: bare "gal": write "US gal" (3.785 L) or "imp gal" (4.546 L)
//
// Columns count characters from 1. A key that is missing from the whole file has
// no line. Text that is not YAML is one fault, with the best line known; so a
// file with such a fault shows its others only when that is mended.
//
// # JSON
//
// Each of these files may be JSON (RFC 8259) as well, with the same keys, values and
// checks; it is for other systems that make job sheets, of which job.schema.json (JSON
// Schema, draft 2020-12) is the description: what it takes of the shape of a sheet
// ParseJob takes too, and a little more besides, as the description says. A text is read
// as JSON when it begins with a brace and a key between double quotes comes next, or
// nothing more; a brace before a key without quotes is YAML. What holds of JSON besides:
//
//   - A figure stays as it is written, 0.30 and 12.0 too. Where the table below has a
//     plain figure (HOURS, whole numbers, the reading of a level), it may be a number or
//     a text; what has a unit is a text: "2.4 US gal at 68 C". Numbers with an exponent
//     are refused, and so is all else that RFC 8259 has not: a comma after the last
//     value, remarks, single quotes, figures that begin with 0.
//   - A TEXT is best a text: a serial number as a number would lose its zeros before it
//     is written.
//   - null is a key left out. In a list it is refused.
//   - A key twice, half of a surrogate pair, more than 16 groups and lists within each
//     other, and anything after the last brace are refused. Tabs may stand between values.
//   - Where a text takes several lines (notes), they are written \n or \r\n.
//
// A text that is not JSON is one fault, with its place. The file keeps its name: a
// machine file is machines/ID.yaml whichever of the two it is in.
//
// # What is written
//
// Job.YAML and Machine.YAML keep to the order of keys below and the hand of the
// examples: short groups and lists on one line, up to 100 columns, fluids and systems
// with a key on each line. Amounts keep their units and decimals, in a list where they
// are a sum; a temperature is in C whichever unit it was written in, and a volume or
// power of a machine file in L or kW. Texts are between quotes unless they are plain
// words. What is zero is left out, so that what is not complete can be written, too;
// ParseJob and ParseMachine then say what is missing.
//
// # Values
//
//	TEXT      one line, at most 120 characters (why, text, where, basis, reasons: 200);
//	          no control or format characters, none beyond U+FFFF, no white space
//	          at either end
//	ID        [a-z0-9][a-z0-9-]{0,39}
//	DATE      YYYY-MM-DD
//	HOURS     a plain figure, at most two decimals; MONTHS, DAYS plain whole numbers
//	VOLUME    9.4 L, 450 mL, 2.5 US gal, 4.5 US qt, 1 imp gal, 3 imp pt, ...
//	AMOUNT    a volume or a mass (7.7 kg), with "at" and a temperature where it is
//	          known (2.5 US gal at 70 C); a list of up to eight of them, which is
//	          their sum; or: not measured
//	others    55 kW, 75 hp, 75 PS; 70 C, 158 F; 880 kg/m3; 15 min; 10 %
//
// What these are exactly is written in package quantity. Words between bars are
// the only ones a key takes. Keys stand in any order.
//
// # yard.yaml
//
//	name: TEXT
//	kind: yard | owner | surveyor
//	address: TEXT               may be left out
//	contact: TEXT               may be left out
//	page: https://HOST          may be left out; a host and nothing more
//	paper: A4 | Letter          A4 where left out
//	signing_key: TEXT           the private key's file, from the yard folder
//	containers: [VOLUME]        the sizes of can that the yard stocks; at most eight
//	extractor: { holds: VOLUME }                       may be left out
//	margin: 5 %                 brought beyond what a job takes, 0 to 100 %; 5 % where left out
//	uncertainty:                how well the yard measures; what is left out is as here
//	  jug: 2 %                    of what is filled from anything but sealed cans
//	  jug_least: 0.1 L            or this, where it is more
//	  can: 1 %                    of what sealed cans hold
//	  extractor: 3 %              of what is drained, on the scale that it is read off
//	  extractor_least: 0.25 L     or this, where it is more
//	  hanging_scale: 0.1 kg
//	  dipstick: 12 %              of what is between the marks, all told
//	  dipstick_reading: 8 %       the part of it that differs from one reading to the next; not above dipstick
//	  thermometer: 3 C            a difference, from 0.1 C to 50 C; in C only
//	  at_upper: 3 %               of the machine file's at_upper
//	  topped_up: 20 %             of what an owner says was topped up
//	  filter: 20 %                of what the filter holds
//	  left_by_extraction: 1.5 %   how much what a drain leaves behind varies, of at_upper
//
// Each is one standard uncertainty: about two figures in three lie within it of
// the true one. Shares are 0.1 to 50 %, a hanging scale's mass no more than 5 kg.
//
// The rest is about text for people alone:
//
//	writes:                     what is left out is as here
//	  second_unit:                none: a unit of volume that stands in brackets behind litres,
//	                              as US gal: 9.40 L (2.48 US gal)
//	  dates: 2026-09-23           a day as the yard writes it: 2026-09-23, 23 Sep 2026 or Sep 23, 2026
//	  decimal: point | comma      of all figures
//
// It changes no value, and nothing that is typed: files and flags have the point and
// 2026-09-23 always. Records, reports, labels, JSON, CSV and calendars do not know of it.
// Package quantity says how the second unit is rounded.
//
// # machines/ID.yaml
//
//	id: ID                      the file's own name
//	vessel: { name: TEXT, hull: TEXT, home: TEXT }     may be left out; so may hull and home
//	kind: TEXT
//	position: TEXT              may be left out
//	driven_by: ID               the engine whose hours count, for a machine without a meter
//	make, model, serial: TEXT   as on the name plate
//	rated_power: POWER          may be left out
//	schedule: ID
//	in_service: { date: DATE, hours: HOURS }
//	expected_hours_per_year: HOURS                     may be left out
//	severe_duty: [TEXT]         severe duties that it runs under, in the words of its
//	                            schedule's tasks (when); at most eight
//	earlier:                    what is said to have been done before the first sealed record
//	  - { task: ID, date: DATE, hours: HOURS, source: invoice | owner | none }
//	systems:                    a name (ID) for each; all its figures may be left out
//	  NAME:
//	    at_upper: VOLUME | unknown    at the upper mark, new filter included
//	    between_marks, filter_holds, holds: VOLUME
//	    viscosity, meets: [TEXT]      any one of these suits; at most eight
//	    density: DENSITY              at 15 degC
//	    glycol: ethylene | propylene
//	    protect_to: TEMPERATURE
//	    drain: extractor | plug       how its oil is taken out
//
// # A machine new to the yard
//
// A machine that has run before it came to the yard has no sealed record, so that
// each task counts from in_service, and most stand as due at once. What is known
// of the time before goes under earlier, one line for the last time that each
// task was done: from the last yard's invoice (invoice), in the owner's word
// (owner), or taken as done with nothing to show for it (none). The hours are
// hours in total, as those of in_service.
//
//	earlier:
//	  - { task: engine-oil, date: 2025-06-20, hours: 501, source: invoice }
//	  - { task: impeller, date: 2025-06-20, hours: 501, source: owner }
//
// The next time is counted from there, also for the tasks that a stated one
// covers, until a record says otherwise. It is shown as "stated, not under seal",
// and nothing is called late or in time on the strength of it. A date after the
// job's is passed over; a task that the schedule has not is a fault. A line that
// nobody can vouch for is better left out: the task is then due, which is the
// safe side.
//
// # schedules/ID.yaml
//
//	id: ID                      the file's own name
//	edition: whole number from 1
//	title: TEXT
//	basis: { kind: maker | class | yard | common-practice, document: TEXT, edition: TEXT, page: TEXT }
//	                            all but kind may be left out
//	next_from: done | grid | window
//	grace: { hours: HOURS | N %, days: DAYS }          either or both; none where left out
//	tasks:                      one at least, 64 at most
//	  - id: ID
//	    title: TEXT
//	    kind: replace | inspect | clean | adjust | test
//	    every: { hours: HOURS, months: MONTHS }        one of them at least, above 0; whichever comes first
//	    once: { hours: HOURS, months: MONTHS }         in the place of every: due one time only
//	    first: { hours: HOURS, months: MONTHS }        until it was done once; not beside once
//	    with, covers: [ID]      tasks of this schedule
//	    needs: { drained: ID, filled: ID, level: ID, leak_check: true | false, part: TEXT, reading: TEXT }
//	    severe: { factor: 0.5, when: TEXT }            factor above 0, at most 1
//	    grace, next_from        instead of the schedule's
//
// A schedule that can be read may still say what nobody means: a task that covers
// itself, one that never falls due by itself, a first interval that never counts,
// an interval beyond reason, a need for a system that a machine has not.
// Contradictions finds these for "hourseal schedule check"; no job is refused for
// them.
//
// # jobs/*.yaml
//
//	machine: ID
//	date: DATE
//	hours: HOURS | { meter: stopped | none, estimate: HOURS, basis: TEXT }
//	                            an estimate is of the hours in total, over all meters
//	meter_change: { removed_at: HOURS | unknown, fitted_at: HOURS, why: TEXT }
//	reason: scheduled | defect | casualty | warranty | revisit | lay-up | recommission | commissioning | inspection
//	job_number, place: TEXT
//	severe_duty: [TEXT]         besides those of the machine file, from this job until the next
//	fuel_used: AMOUNT           burnt since the last service, as logged
//	technician: { number: TEXT, name: TEXT, credential: TEXT }
//	tasks:
//	  - id: ID                  of the machine's schedule, each once
//	    result: done | ok | watch | defect | deferred
//	    why: TEXT
//	    advice: before-use | next-service | monitor
//	    told: DATE
//	    owner: agreed | declined | awaiting
//	    look_again: { hours: HOURS, date: DATE }       one of them at least
//	    reading: { NAME: FIGURE } or { NAME: { as_found: FIGURE, as_left: FIGURE } }
//	    done_by: TEXT
//	other_work:
//	  - { text: TEXT, result, why, advice, told, owner, done_by }
//	fluids:                     each system once
//	  - system: ID              of the machine
//	    level_before: { reading: 0.3, after: MINUTES, at: TEMPERATURE } | not measured
//	    drained: AMOUNT
//	    drained_includes_filter: true | false
//	    seen: nothing | { what: [water | metal | fuel], why: TEXT, advice, told, owner }
//	                            in what was drained; the answer as that of a task with a defect.
//	                            A word or a list without braces is taken, too, and has no answer
//	    filled: AMOUNT
//	    drawn_down: AMOUNT      drawn off again after the fill
//	    product, batch, viscosity: TEXT
//	    meets: [TEXT]
//	    glycol: ethylene | propylene                   of the coolant filled
//	    level: as level_before
//	topped_up:                  since the last service, each system once
//	  - { system: ID, amount: AMOUNT }
//	waste:
//	  - { system: ID, amount: AMOUNT, to: TEXT, receipt: TEXT }
//	  - { system: ID, amount: AMOUNT, held: TEXT }     where it is kept until a receiver takes it
//	parts:
//	  - { item: TEXT, number: TEXT, serial: TEXT, quantity: whole number, supplied_by: yard | customer | warranty }
//	                            serial the part's own; quantity 1 and yard where left out
//	leak_check: { result: none seen | seen, after: MINUTES, where: TEXT }
//	files: [NAME]               photographs, laboratory sheets: named and hashed in the record,
//	                            and kept beside it; at most 16, each of a name of its own.
//	                            They lie in jobs/files; "hourseal attach" puts them there.
//	                            NAME is [A-Za-z0-9][A-Za-z0-9._-]*, at most 120 characters
//	accept:                     reasons for findings that need a decision
//	  CODE: TEXT                or CODE/SUBJECT where several findings have the code
//	notes: TEXT                 at most 600 characters, on several lines
//
// Needed of a job sheet: machine, date, hours and reason; of a task id and result;
// of other work text and result; of a fluid its system; of a level its reading; of seen, in
// braces, what. Package check says what else a job needs before it can be signed.
package jobsheet
