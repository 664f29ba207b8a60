package words

// StatementTexts is templates/words/statement.yaml: the captions of the statement of
// a machine's history, one field a section. What a report says in the same words is
// taken from [Report], and what is said of the machine from package verify/history.
type StatementTexts struct {
	Document  StatementDocument  `json:"document"`
	Machine   StatementMachine   `json:"machine"`
	First     StatementFirst     `json:"first"`
	Chart     StatementChart     `json:"chart"`
	Bars      StatementBars      `json:"bars"`
	Stands    StatementStands    `json:"stands"`
	Faults    StatementHeading   `json:"faults"`
	Questions StatementHeading   `json:"questions"`
	BarsMore  StatementHeading   `json:"bars_more"`
	Tasks     StatementTasks     `json:"tasks"`
	Records   StatementRecords   `json:"records"`
	Ends      StatementHeading   `json:"ends"`
	Lists     StatementLists     `json:"lists"`
	Aside     StatementAsideText `json:"aside"`
}

// StatementHeading is a section with nothing but a heading of its own.
type StatementHeading struct {
	Heading string `json:"heading"`
}

// StatementDocument is for the head of the first page and the foot of each.
type StatementDocument struct {
	Title       string `json:"title"`
	File        Phrase `json:"file"` // {machine}
	Made        Phrase `json:"made"` // {date}
	NotSigned   string `json:"not_signed"`
	WithList    Phrase `json:"with_list"` // {file}
	AsTheyStand string `json:"as_they_stand"`
	Letters     string `json:"letters"`
	Footer      Phrase `json:"footer"` // {machine} {serial}
	Page        Phrase `json:"page"`   // {page} {pages}
	Continued   Phrase `json:"continued"`
}

// StatementMachine is the name plate, and what there is of it.
type StatementMachine struct {
	Make      string `json:"make"`
	Model     string `json:"model"`
	Serial    string `json:"serial"`
	Vessel    string `json:"vessel"`
	Hull      string `json:"hull"`
	Kind      string `json:"kind"`
	Records   string `json:"records"`
	Counted   Phrase `json:"counted"` // {all} {counted}
	Span      string `json:"span"`
	SpanLine  Phrase `json:"span_line"` // {first} {last}
	Hours     string `json:"hours"`
	HoursLine Phrase `json:"hours_line"` // {first} {last}
}

// StatementFirst is the page to read.
type StatementFirst struct {
	Faults     string `json:"faults"`
	MoreFaults Phrase `json:"more_faults"` // {count} {page}
	Questions  string `json:"questions"`
	InFull     Phrase `json:"in_full"` // {page}
	Graphs     Phrase `json:"graphs"`  // {page}
	NotShown   string `json:"not_shown"`
	MoreTails  Phrase `json:"more_tails"` // {count} {page}
	Stood      Phrase `json:"stood"`      // {date} {page} {hours}
	StoodAll   Phrase `json:"stood_all"`  // {all} {overdue} {most} {grace} {unknown}
}

// StatementChart is for the chart of hours against date.
type StatementChart struct {
	Heading string  `json:"heading"`
	Behind  Phrase  `json:"behind"` // {task}
	None    string  `json:"none"`
	Hours   Phrase  `json:"hours"`   // {hours}
	Missing Phrase  `json:"missing"` // {number}
	Meter   string  `json:"meter"`
	Counts  string  `json:"counts"`
	Hollow  string  `json:"hollow"`
	Cited   string  `json:"cited"`
	Change  string  `json:"change"`
	Asked   Phrase  `json:"asked"` // {date}
	Thinned string  `json:"thinned"`
	Bands   Wording `json:"bands"` // by history.Adherence
}

// StatementBars is for the bar of each task.
type StatementBars struct {
	Heading   Phrase `json:"heading"` // {first} {last}
	OneDay    Phrase `json:"one_day"` // {first}
	Inside    string `json:"inside"`
	InGrace   string `json:"in_grace"`
	Overdue   string `json:"overdue"`
	NotKnown  string `json:"not_known"`
	More      Phrase `json:"more"`       // {count} {page}
	OverdueOf Phrase `json:"overdue_of"` // {hours} {run}
	AboutOf   Phrase `json:"about_of"`   // {hours} {run}
	ByDate    string `json:"by_date"`
	InsideAll string `json:"inside_all"`
	GraceAll  string `json:"grace_all"`
	Part      Phrase `json:"part"` // {hours} {run}
	Unknown   string `json:"unknown"`
	NoRecord  string `json:"no_record"`
	Once      string `json:"once"`
}

// StatementStands is where the machine stood on the day asked about.
type StatementStands struct {
	Heading Phrase `json:"heading"`  // {date}
	ShownOf Phrase `json:"shown_of"` // {shown} {all}
	Task    string `json:"task"`
	Shown   string `json:"shown"`
	All     string `json:"all"`
	Last    Phrase `json:"last"` // {date} {hours}
	NoLast  string `json:"no_last"`
	Was     Phrase `json:"was"` // {last} {due}
}

// StatementTasks is for the table of each task.
type StatementTasks struct {
	Chapter  string  `json:"chapter"`
	How      string  `json:"how"`
	Section  Phrase  `json:"section"` // {title} {id}
	Every    Phrase  `json:"every"`   // {kind} {interval} {grace}
	By       Phrase  `json:"by"`      // {id} {edition} {date} {basis} {document}
	Now      Phrase  `json:"now"`     // {now}
	Overdue  Phrase  `json:"overdue"` // {run} {hours} {share} {unknown}
	About    Phrase  `json:"about"`   // {run} {hours} {share} {unknown}
	Date     string  `json:"date"`
	Hours    string  `json:"hours"`
	Record   string  `json:"record"`
	Result   string  `json:"result"`
	Due      string  `json:"due"`
	When     string  `json:"when"`
	DueBoth  Phrase  `json:"due_both"`  // {hours} {date}
	DueHours Phrase  `json:"due_hours"` // {hours}
	DueDate  Phrase  `json:"due_date"`  // {date}
	Covered  string  `json:"covered"`
	First    string  `json:"first"`
	OnDue    string  `json:"on_due"`
	Open     string  `json:"open"`
	States   Wording `json:"states"` // by history.Adherence: {words}
	None     string  `json:"none"`
	Stated   Phrase  `json:"stated"` // {date} {hours}
}

// StatementRecords is for the table of all records.
type StatementRecords struct {
	Heading   string  `json:"heading"`
	Number    string  `json:"number"`
	Date      string  `json:"date"`
	Hours     string  `json:"hours"`
	ID        string  `json:"id"`
	Signer    string  `json:"signer"`
	Exists    string  `json:"exists"`
	Counts    string  `json:"counts"`
	Void      string  `json:"void"`
	NotBefore Phrase  `json:"not_before"` // {date} {because}
	NotAfter  Phrase  `json:"not_after"`  // {date} {because}
	OwnWord   string  `json:"own_word"`
	Because   Wording `json:"because"` // by history.BoundReason: {number}
	IDNote    string  `json:"id_note"`
}

// StatementLists are what bounds the end of the records.
type StatementLists struct {
	Heading  string `json:"heading"`
	List     Phrase `json:"list"`      // {name} {signer} {until} {count} {asked}
	ListVoid Phrase `json:"list_void"` // {name} {until}
	Head     Phrase `json:"head"`      // {date} {received} {shown}
	Shown    string `json:"shown"`
	NotShown string `json:"not_shown"`
}

// StatementAsideText is for inputs that are not judged.
type StatementAsideText struct {
	Heading string `json:"heading"`
	Line    Phrase `json:"line"` // {name} {sentence}
}

var statement = once[StatementTexts]("statement.json")

// Statement returns the captions of the statement of a machine's history. Callers
// must not change the tables in it.
func Statement() StatementTexts { return statement() }
