package words

// WorksheetTexts is templates/words/worksheet.yaml: the captions of a worksheet,
// one field a section. What a report says in the same words is taken from
// [Report].
type WorksheetTexts struct {
	Document WorksheetDocument `json:"document"`
	Hours    WorksheetHours    `json:"hours"`
	Form     WorksheetForm     `json:"form"`
	Cautions WorksheetCautions `json:"cautions"`
	Due      WorksheetDue      `json:"due"`
	Kit      WorksheetKit      `json:"kit"`
	Steps    WorksheetSteps    `json:"steps"`
	Results  WorksheetResults  `json:"results"`
	Nothing  WorksheetNothing  `json:"nothing"`
}

// WorksheetDocument is for the head and foot of every page.
type WorksheetDocument struct {
	Title     string `json:"title"`
	File      Phrase `json:"file"`    // {machine} {date}
	Machine   Phrase `json:"machine"` // {vessel} {make} {model} {position}
	Running   Phrase `json:"running"` // {machine} {date}
	Footer    Phrase `json:"footer"`  // {machine} {serial}
	Page      Phrase `json:"page"`    // {page} {pages}
	Continued Phrase `json:"continued"`
	MadeFor   Phrase `json:"made_for"` // {date}
	NoRecord  string `json:"no_record"`
}

// WorksheetHours says where the hours stand and how that is known.
type WorksheetHours struct {
	Total          string  `json:"total"`
	TotalEstimated string  `json:"total_estimated"`
	Line           Phrase  `json:"line"`  // {hours}
	About          Phrase  `json:"about"` // {hours}
	Read           string  `json:"read"`
	Reading        Phrase  `json:"reading"`       // {reading}
	ReadingAbout   Phrase  `json:"reading_about"` // {reading}
	OtherMeters    Phrase  `json:"other_meters"`  // {offset}
	MeterAhead     Phrase  `json:"meter_ahead"`   // {offset}
	Carried        Phrase  `json:"carried"`       // {hours} {date} {year} {basis}
	Last           Phrase  `json:"last"`          // {date}
	LastNoUse      Phrase  `json:"last_no_use"`   // {date}
	Basis          Wording `json:"basis"`         // readings, few, file
}

// WorksheetForm are the lines to fill in at the head, and the machine file's name.
type WorksheetForm struct {
	File       string `json:"file"`
	Meter      string `json:"meter"`
	MeterUnit  string `json:"meter_unit"`
	Date       string `json:"date"`
	Technician string `json:"technician"`
	Job        string `json:"job"`
	Place      string `json:"place"`
}

// WorksheetCautions stand around the cautions.
type WorksheetCautions struct {
	Heading string `json:"heading"`
}

// WorksheetDue are about the items, and why each is on the sheet.
type WorksheetDue struct {
	Heading     string  `json:"heading"`
	Item        string  `json:"item"`
	Why         string  `json:"why"`
	Due         string  `json:"due"`
	Last        string  `json:"last"`
	States      Wording `json:"states"` // by schedule.State
	FromService string  `json:"from_service"`
	FromStated  string  `json:"from_stated"`
	Asked       string  `json:"asked"`
	Look        string  `json:"look"`        // another look, as the last record asked for
	Advised     string  `json:"advised"`     // by the last record and not by the schedule
	OpenDefect  string  `json:"open_defect"` // found and left, else not due yet
	With        Phrase  `json:"with"`        // {tasks}
	Hours       Phrase  `json:"hours"`       // {hours}
	Days        Phrase  `json:"days"`        // {days}
	Left        Phrase  `json:"left"`        // {amount}
	Past        Phrase  `json:"past"`        // {amount}
	AtHours     Phrase  `json:"at_hours"`    // {hours}
	AtMeter     Phrase  `json:"at_meter"`    // {reading}
	NothingMore string  `json:"nothing_more"`
	LastLine    Phrase  `json:"last_line"` // {date} {hours}
	Record      Phrase  `json:"record"`    // {number}
	Stated      Phrase  `json:"stated"`    // {source}
	NoRecord    Phrase  `json:"no_record"` // {date} {hours}
	Open        Phrase  `json:"open"`      // {date} {what} {why} {advice} {told} {owner} {when}
	LookHours   Phrase  `json:"look_hours"`
	LookDate    Phrase  `json:"look_date"`
	LookBoth    Phrase  `json:"look_both"`
	Severe      Phrase  `json:"severe"` // {when}
	First       string  `json:"first"`
	Total       string  `json:"total"`
	Schedule    Phrase  `json:"schedule"` // {id} {edition} {basis} {document}
	Edition     Phrase  `json:"edition"`  // {number} {id} {edition}
}

// WorksheetKit are about what to bring.
type WorksheetKit struct {
	Heading       string `json:"heading"`
	Fluid         string `json:"fluid"`
	Arithmetic    string `json:"arithmetic"`
	Upper         Phrase `json:"upper"`       // {needs}
	UpperPlain    Phrase `json:"upper_plain"` // {needs}
	Holds         Phrase `json:"holds"`       // {needs}
	Sum           Phrase `json:"sum"`         // {of} {margin} {bring}
	Rounded       string `json:"rounded"`
	Cans          Phrase `json:"cans"`        // {cans} {holds}
	CanFirst      Phrase `json:"can_first"`   // {count} {size}
	CansFirst     Phrase `json:"cans_first"`  // {count} {size}
	CanFurther    Phrase `json:"can_further"` // {count} {size}
	And           string `json:"and"`
	NoCans        string `json:"no_cans"`
	Unknown       Phrase `json:"unknown"`      // {machine} {system} {key}
	Viscosity     Phrase `json:"viscosity"`    // {list}
	Meets         Phrase `json:"meets"`        // {list}
	LastProduct   Phrase `json:"last_product"` // {product}
	Glycol        Phrase `json:"glycol"`       // {glycol}
	Protect       Phrase `json:"protect"`      // {temperature}
	Or            string `json:"or"`
	Extractor     Phrase `json:"extractor"`  // {system}
	Extraction    Phrase `json:"extraction"` // {content} {hot} {at} {fillings}
	Filling       Phrase `json:"filling"`    // {count} {holds}
	Fillings      Phrase `json:"fillings"`   // {count} {holds}
	Pan           Phrase `json:"pan"`        // {system}
	PanHolds      Phrase `json:"pan_holds"`  // {content} {hot} {at}
	PanPlain      Phrase `json:"pan_plain"`  // {content}
	PanUnknown    string `json:"pan_unknown"`
	ExtractorSize Phrase `json:"extractor_size"` // {holds}
	NoExtractor   string `json:"no_extractor"`
	FilterOil     Phrase `json:"filter_oil"` // {holds}
	Part          string `json:"part"`
	PartFor       Phrase `json:"part_for"` // {title}
	Number        string `json:"number"`
	Count         string `json:"count"`
	NumberUnknown string `json:"number_unknown"`
	Empty         string `json:"empty"`
}

// WorksheetSteps stand around the steps; those are [Steps].
type WorksheetSteps struct {
	Heading Phrase `json:"heading"` // {number} {phase}
	Reading Phrase `json:"reading"` // {name}
	Part    string `json:"part"`
	Count   string `json:"count"`
	Noted   string `json:"noted"`
}

// WorksheetResults are about what came of the work, at the end.
type WorksheetResults struct {
	Heading   string  `json:"heading"`
	Intro     string  `json:"intro"`
	Item      string  `json:"item"`
	Marks     Wording `json:"marks"` // by record.Result
	Why       string  `json:"why"`
	Asks      Phrase  `json:"asks"`    // {list}
	Drained   Phrase  `json:"drained"` // {system}
	Filled    Phrase  `json:"filled"`  // {system}
	Level     Phrase  `json:"level"`   // {system}
	LeakCheck string  `json:"leak_check"`
	Part      Phrase  `json:"part"`    // {item}
	Reading   Phrase  `json:"reading"` // {name}
	Leaks     string  `json:"leaks"`
	NoneSeen  string  `json:"none_seen"`
	Seen      string  `json:"seen"`
	After     string  `json:"after"`
	Minutes   string  `json:"minutes"`
	Other     string  `json:"other"`
	Waste     string  `json:"waste"`
	What      string  `json:"what"`
	Amount    string  `json:"amount"`
	To        string  `json:"to"`
	When      string  `json:"when"`
	Receipt   string  `json:"receipt"`
	Filters   string  `json:"filters"`
}

// WorksheetNothing is the sheet of a machine with nothing due.
type WorksheetNothing struct {
	Line          Phrase `json:"line"`       // {date} {hours}
	LineAbout     Phrase `json:"line_about"` // {date} {hours}
	NoneChosen    string `json:"none_chosen"`
	Heading       string `json:"heading"`
	NoSchedule    string `json:"no_schedule"`
	Expected      string `json:"expected"`
	ExpectedOn    Phrase `json:"expected_on"`    // {date}
	ExpectedRange Phrase `json:"expected_range"` // {from} {to}
	Silence       string `json:"silence"`
}

var worksheet = once[WorksheetTexts]("worksheet.json")

// Worksheet returns the captions of a worksheet. Callers must not change the
// tables in it.
func Worksheet() WorksheetTexts { return worksheet() }
