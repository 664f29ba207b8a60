package words

// WorksheetTexts is templates/words/worksheet.yaml: the captions of a worksheet,
// one field a section. What a report says in the same words is taken from
// [Report].
type WorksheetTexts struct {
	Document WorksheetDocument `yaml:"document"`
	Hours    WorksheetHours    `yaml:"hours"`
	Form     WorksheetForm     `yaml:"form"`
	Cautions WorksheetCautions `yaml:"cautions"`
	Due      WorksheetDue      `yaml:"due"`
	Kit      WorksheetKit      `yaml:"kit"`
	Steps    WorksheetSteps    `yaml:"steps"`
	Results  WorksheetResults  `yaml:"results"`
	Nothing  WorksheetNothing  `yaml:"nothing"`
}

// WorksheetDocument is for the head and foot of every page.
type WorksheetDocument struct {
	Title     string `yaml:"title"`
	File      Phrase `yaml:"file"`    // {machine} {date}
	Machine   Phrase `yaml:"machine"` // {vessel} {make} {model} {position}
	Running   Phrase `yaml:"running"` // {machine} {date}
	Footer    Phrase `yaml:"footer"`  // {machine} {serial}
	Page      Phrase `yaml:"page"`    // {page} {pages}
	Continued Phrase `yaml:"continued"`
	MadeFor   Phrase `yaml:"made_for"` // {date}
	NoRecord  string `yaml:"no_record"`
}

// WorksheetHours says where the hours stand and how that is known.
type WorksheetHours struct {
	Total          string  `yaml:"total"`
	TotalEstimated string  `yaml:"total_estimated"`
	Line           Phrase  `yaml:"line"`  // {hours}
	About          Phrase  `yaml:"about"` // {hours}
	Read           string  `yaml:"read"`
	Reading        Phrase  `yaml:"reading"`       // {reading}
	ReadingAbout   Phrase  `yaml:"reading_about"` // {reading}
	OtherMeters    Phrase  `yaml:"other_meters"`  // {offset}
	MeterAhead     Phrase  `yaml:"meter_ahead"`   // {offset}
	Carried        Phrase  `yaml:"carried"`       // {hours} {date} {year} {basis}
	Last           Phrase  `yaml:"last"`          // {date}
	LastNoUse      Phrase  `yaml:"last_no_use"`   // {date}
	Basis          Wording `yaml:"basis"`         // readings, few, file
}

// WorksheetForm are the lines to fill in at the head, and the machine file's name.
type WorksheetForm struct {
	File       string `yaml:"file"`
	Meter      string `yaml:"meter"`
	MeterUnit  string `yaml:"meter_unit"`
	Date       string `yaml:"date"`
	Technician string `yaml:"technician"`
	Job        string `yaml:"job"`
	Place      string `yaml:"place"`
}

// WorksheetCautions stand around the cautions.
type WorksheetCautions struct {
	Heading string `yaml:"heading"`
}

// WorksheetDue are about the items, and why each is on the sheet.
type WorksheetDue struct {
	Heading     string  `yaml:"heading"`
	Item        string  `yaml:"item"`
	Why         string  `yaml:"why"`
	Due         string  `yaml:"due"`
	Last        string  `yaml:"last"`
	States      Wording `yaml:"states"` // by schedule.State
	FromService string  `yaml:"from_service"`
	FromStated  string  `yaml:"from_stated"`
	Asked       string  `yaml:"asked"`
	Look        string  `yaml:"look"`        // another look, as the last record asked for
	Advised     string  `yaml:"advised"`     // by the last record and not by the schedule
	OpenDefect  string  `yaml:"open_defect"` // found and left, else not due yet
	With        Phrase  `yaml:"with"`        // {tasks}
	Hours       Phrase  `yaml:"hours"`       // {hours}
	Days        Phrase  `yaml:"days"`        // {days}
	Left        Phrase  `yaml:"left"`        // {amount}
	Past        Phrase  `yaml:"past"`        // {amount}
	AtHours     Phrase  `yaml:"at_hours"`    // {hours}
	AtMeter     Phrase  `yaml:"at_meter"`    // {reading}
	NothingMore string  `yaml:"nothing_more"`
	LastLine    Phrase  `yaml:"last_line"` // {date} {hours}
	Record      Phrase  `yaml:"record"`    // {number}
	Stated      Phrase  `yaml:"stated"`    // {source}
	NoRecord    Phrase  `yaml:"no_record"` // {date} {hours}
	Open        Phrase  `yaml:"open"`      // {date} {what} {why} {advice} {told} {owner} {when}
	LookHours   Phrase  `yaml:"look_hours"`
	LookDate    Phrase  `yaml:"look_date"`
	LookBoth    Phrase  `yaml:"look_both"`
	Severe      Phrase  `yaml:"severe"` // {when}
	First       string  `yaml:"first"`
	Total       string  `yaml:"total"`
	Schedule    Phrase  `yaml:"schedule"` // {id} {edition} {basis} {document}
	Edition     Phrase  `yaml:"edition"`  // {number} {id} {edition}
}

// WorksheetKit are about what to bring.
type WorksheetKit struct {
	Heading       string `yaml:"heading"`
	Fluid         string `yaml:"fluid"`
	Arithmetic    string `yaml:"arithmetic"`
	Upper         Phrase `yaml:"upper"`       // {needs}
	UpperPlain    Phrase `yaml:"upper_plain"` // {needs}
	Holds         Phrase `yaml:"holds"`       // {needs}
	Sum           Phrase `yaml:"sum"`         // {of} {margin} {bring}
	Rounded       string `yaml:"rounded"`
	Cans          Phrase `yaml:"cans"`        // {cans} {holds}
	CanFirst      Phrase `yaml:"can_first"`   // {count} {size}
	CansFirst     Phrase `yaml:"cans_first"`  // {count} {size}
	CanFurther    Phrase `yaml:"can_further"` // {count} {size}
	And           string `yaml:"and"`
	NoCans        string `yaml:"no_cans"`
	Unknown       Phrase `yaml:"unknown"`      // {machine} {system} {key}
	Viscosity     Phrase `yaml:"viscosity"`    // {list}
	Meets         Phrase `yaml:"meets"`        // {list}
	LastProduct   Phrase `yaml:"last_product"` // {product}
	Glycol        Phrase `yaml:"glycol"`       // {glycol}
	Protect       Phrase `yaml:"protect"`      // {temperature}
	Or            string `yaml:"or"`
	Extractor     Phrase `yaml:"extractor"`  // {system}
	Extraction    Phrase `yaml:"extraction"` // {content} {hot} {at} {fillings}
	Filling       Phrase `yaml:"filling"`    // {count} {holds}
	Fillings      Phrase `yaml:"fillings"`   // {count} {holds}
	Pan           Phrase `yaml:"pan"`        // {system}
	PanHolds      Phrase `yaml:"pan_holds"`  // {content} {hot} {at}
	PanPlain      Phrase `yaml:"pan_plain"`  // {content}
	PanUnknown    string `yaml:"pan_unknown"`
	ExtractorSize Phrase `yaml:"extractor_size"` // {holds}
	NoExtractor   string `yaml:"no_extractor"`
	FilterOil     Phrase `yaml:"filter_oil"` // {holds}
	Part          string `yaml:"part"`
	PartFor       Phrase `yaml:"part_for"` // {title}
	Number        string `yaml:"number"`
	Count         string `yaml:"count"`
	NumberUnknown string `yaml:"number_unknown"`
	Empty         string `yaml:"empty"`
}

// WorksheetSteps stand around the steps; those are [Steps].
type WorksheetSteps struct {
	Heading Phrase `yaml:"heading"` // {number} {phase}
	Reading Phrase `yaml:"reading"` // {name}
	Part    string `yaml:"part"`
	Count   string `yaml:"count"`
	Noted   string `yaml:"noted"`
}

// WorksheetResults are about what came of the work, at the end.
type WorksheetResults struct {
	Heading   string  `yaml:"heading"`
	Intro     string  `yaml:"intro"`
	Item      string  `yaml:"item"`
	Marks     Wording `yaml:"marks"` // by record.Result
	Why       string  `yaml:"why"`
	Asks      Phrase  `yaml:"asks"`    // {list}
	Drained   Phrase  `yaml:"drained"` // {system}
	Filled    Phrase  `yaml:"filled"`  // {system}
	Level     Phrase  `yaml:"level"`   // {system}
	LeakCheck string  `yaml:"leak_check"`
	Part      Phrase  `yaml:"part"`    // {item}
	Reading   Phrase  `yaml:"reading"` // {name}
	Leaks     string  `yaml:"leaks"`
	NoneSeen  string  `yaml:"none_seen"`
	Seen      string  `yaml:"seen"`
	After     string  `yaml:"after"`
	Minutes   string  `yaml:"minutes"`
	Other     string  `yaml:"other"`
	Waste     string  `yaml:"waste"`
	What      string  `yaml:"what"`
	Amount    string  `yaml:"amount"`
	To        string  `yaml:"to"`
	When      string  `yaml:"when"`
	Receipt   string  `yaml:"receipt"`
	Filters   string  `yaml:"filters"`
}

// WorksheetNothing is the sheet of a machine with nothing due.
type WorksheetNothing struct {
	Line          Phrase `yaml:"line"`       // {date} {hours}
	LineAbout     Phrase `yaml:"line_about"` // {date} {hours}
	NoneChosen    string `yaml:"none_chosen"`
	Heading       string `yaml:"heading"`
	NoSchedule    string `yaml:"no_schedule"`
	Expected      string `yaml:"expected"`
	ExpectedOn    Phrase `yaml:"expected_on"`    // {date}
	ExpectedRange Phrase `yaml:"expected_range"` // {from} {to}
	Silence       string `yaml:"silence"`
}

var worksheet = once[WorksheetTexts]("worksheet.yaml")

// Worksheet returns the captions of a worksheet. Callers must not change the
// tables in it.
func Worksheet() WorksheetTexts { return worksheet() }
