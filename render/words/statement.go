package words

// StatementTexts is templates/words/statement.yaml: the captions of the statement of
// a machine's history, one field a section. What a report says in the same words is
// taken from [Report], and what is said of the machine from package verify/history.
type StatementTexts struct {
	Document  StatementDocument  `yaml:"document"`
	Machine   StatementMachine   `yaml:"machine"`
	First     StatementFirst     `yaml:"first"`
	Chart     StatementChart     `yaml:"chart"`
	Bars      StatementBars      `yaml:"bars"`
	Stands    StatementStands    `yaml:"stands"`
	Faults    StatementHeading   `yaml:"faults"`
	Questions StatementHeading   `yaml:"questions"`
	BarsMore  StatementHeading   `yaml:"bars_more"`
	Tasks     StatementTasks     `yaml:"tasks"`
	Records   StatementRecords   `yaml:"records"`
	Ends      StatementHeading   `yaml:"ends"`
	Lists     StatementLists     `yaml:"lists"`
	Aside     StatementAsideText `yaml:"aside"`
}

// StatementHeading is a section with nothing but a heading of its own.
type StatementHeading struct {
	Heading string `yaml:"heading"`
}

// StatementDocument is for the head of the first page and the foot of each.
type StatementDocument struct {
	Title       string `yaml:"title"`
	File        Phrase `yaml:"file"` // {machine}
	Made        Phrase `yaml:"made"` // {date}
	NotSigned   string `yaml:"not_signed"`
	WithList    Phrase `yaml:"with_list"` // {file}
	AsTheyStand string `yaml:"as_they_stand"`
	Letters     string `yaml:"letters"`
	Footer      Phrase `yaml:"footer"` // {machine} {serial}
	Page        Phrase `yaml:"page"`   // {page} {pages}
	Continued   Phrase `yaml:"continued"`
}

// StatementMachine is the name plate, and what there is of it.
type StatementMachine struct {
	Make      string `yaml:"make"`
	Model     string `yaml:"model"`
	Serial    string `yaml:"serial"`
	Vessel    string `yaml:"vessel"`
	Hull      string `yaml:"hull"`
	Kind      string `yaml:"kind"`
	Records   string `yaml:"records"`
	Counted   Phrase `yaml:"counted"` // {all} {counted}
	Span      string `yaml:"span"`
	SpanLine  Phrase `yaml:"span_line"` // {first} {last}
	Hours     string `yaml:"hours"`
	HoursLine Phrase `yaml:"hours_line"` // {first} {last}
}

// StatementFirst is the page to read.
type StatementFirst struct {
	Faults     string `yaml:"faults"`
	MoreFaults Phrase `yaml:"more_faults"` // {count} {page}
	Questions  string `yaml:"questions"`
	InFull     Phrase `yaml:"in_full"` // {page}
	Graphs     Phrase `yaml:"graphs"`  // {page}
	NotShown   string `yaml:"not_shown"`
	MoreTails  Phrase `yaml:"more_tails"` // {count} {page}
	Stood      Phrase `yaml:"stood"`      // {date} {page} {hours}
	StoodAll   Phrase `yaml:"stood_all"`  // {all} {overdue} {most} {grace} {unknown}
}

// StatementChart is for the chart of hours against date.
type StatementChart struct {
	Heading string  `yaml:"heading"`
	Behind  Phrase  `yaml:"behind"` // {task}
	None    string  `yaml:"none"`
	Hours   Phrase  `yaml:"hours"`   // {hours}
	Missing Phrase  `yaml:"missing"` // {number}
	Meter   string  `yaml:"meter"`
	Counts  string  `yaml:"counts"`
	Hollow  string  `yaml:"hollow"`
	Cited   string  `yaml:"cited"`
	Change  string  `yaml:"change"`
	Asked   Phrase  `yaml:"asked"` // {date}
	Thinned string  `yaml:"thinned"`
	Bands   Wording `yaml:"bands"` // by history.Adherence
}

// StatementBars is for the bar of each task.
type StatementBars struct {
	Heading   Phrase `yaml:"heading"` // {first} {last}
	OneDay    Phrase `yaml:"one_day"` // {first}
	Inside    string `yaml:"inside"`
	InGrace   string `yaml:"in_grace"`
	Overdue   string `yaml:"overdue"`
	NotKnown  string `yaml:"not_known"`
	More      Phrase `yaml:"more"`       // {count} {page}
	OverdueOf Phrase `yaml:"overdue_of"` // {hours} {run}
	AboutOf   Phrase `yaml:"about_of"`   // {hours} {run}
	ByDate    string `yaml:"by_date"`
	InsideAll string `yaml:"inside_all"`
	GraceAll  string `yaml:"grace_all"`
	Part      Phrase `yaml:"part"` // {hours} {run}
	Unknown   string `yaml:"unknown"`
	NoRecord  string `yaml:"no_record"`
	Once      string `yaml:"once"`
}

// StatementStands is where the machine stood on the day asked about.
type StatementStands struct {
	Heading Phrase `yaml:"heading"`  // {date}
	ShownOf Phrase `yaml:"shown_of"` // {shown} {all}
	Task    string `yaml:"task"`
	Shown   string `yaml:"shown"`
	All     string `yaml:"all"`
	Last    Phrase `yaml:"last"` // {date} {hours}
	NoLast  string `yaml:"no_last"`
	Was     Phrase `yaml:"was"` // {last} {due}
}

// StatementTasks is for the table of each task.
type StatementTasks struct {
	Chapter  string  `yaml:"chapter"`
	How      string  `yaml:"how"`
	Section  Phrase  `yaml:"section"` // {title} {id}
	Every    Phrase  `yaml:"every"`   // {kind} {interval} {grace}
	By       Phrase  `yaml:"by"`      // {id} {edition} {date} {basis} {document}
	Now      Phrase  `yaml:"now"`     // {now}
	Overdue  Phrase  `yaml:"overdue"` // {run} {hours} {share} {unknown}
	About    Phrase  `yaml:"about"`   // {run} {hours} {share} {unknown}
	Date     string  `yaml:"date"`
	Hours    string  `yaml:"hours"`
	Record   string  `yaml:"record"`
	Result   string  `yaml:"result"`
	Due      string  `yaml:"due"`
	When     string  `yaml:"when"`
	DueBoth  Phrase  `yaml:"due_both"`  // {hours} {date}
	DueHours Phrase  `yaml:"due_hours"` // {hours}
	DueDate  Phrase  `yaml:"due_date"`  // {date}
	Covered  string  `yaml:"covered"`
	First    string  `yaml:"first"`
	OnDue    string  `yaml:"on_due"`
	Open     string  `yaml:"open"`
	States   Wording `yaml:"states"` // by history.Adherence: {words}
	None     string  `yaml:"none"`
	Stated   Phrase  `yaml:"stated"` // {date} {hours}
}

// StatementRecords is for the table of all records.
type StatementRecords struct {
	Heading   string  `yaml:"heading"`
	Number    string  `yaml:"number"`
	Date      string  `yaml:"date"`
	Hours     string  `yaml:"hours"`
	ID        string  `yaml:"id"`
	Signer    string  `yaml:"signer"`
	Exists    string  `yaml:"exists"`
	Counts    string  `yaml:"counts"`
	Void      string  `yaml:"void"`
	NotBefore Phrase  `yaml:"not_before"` // {date} {because}
	NotAfter  Phrase  `yaml:"not_after"`  // {date} {because}
	OwnWord   string  `yaml:"own_word"`
	Because   Wording `yaml:"because"` // by history.BoundReason: {number}
	IDNote    string  `yaml:"id_note"`
}

// StatementLists are what bounds the end of the records.
type StatementLists struct {
	Heading  string `yaml:"heading"`
	List     Phrase `yaml:"list"`      // {name} {signer} {until} {count} {asked}
	ListVoid Phrase `yaml:"list_void"` // {name} {until}
	Head     Phrase `yaml:"head"`      // {date} {received} {shown}
	Shown    string `yaml:"shown"`
	NotShown string `yaml:"not_shown"`
}

// StatementAsideText is for inputs that are not judged.
type StatementAsideText struct {
	Heading string `yaml:"heading"`
	Line    Phrase `yaml:"line"` // {name} {sentence}
}

var statement = once[StatementTexts]("statement.yaml")

// Statement returns the captions of the statement of a machine's history. Callers
// must not change the tables in it.
func Statement() StatementTexts { return statement() }
