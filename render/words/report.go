package words

import (
	"hourseal/record"
	"hourseal/record/schedule"
)

// Texts is templates/words/report.yaml: the captions of a service report, one
// field a section.
type Texts struct {
	Document  DocumentTexts  `yaml:"document"`
	Banner    BannerTexts    `yaml:"banner"`
	Issuer    IssuerTexts    `yaml:"issuer"`
	Machine   MachineTexts   `yaml:"machine"`
	Job       JobTexts       `yaml:"job"`
	Tasks     TaskTexts      `yaml:"tasks"`
	Left      LeftTexts      `yaml:"left"`
	OtherWork OtherWorkTexts `yaml:"other_work"`
	Fluids    FluidTexts     `yaml:"fluids"`
	Parts     PartTexts      `yaml:"parts"`
	LeakCheck LeakTexts      `yaml:"leak_check"`
	Findings  FindingTexts   `yaml:"findings"`
	Next      NextTexts      `yaml:"next"`
	Schedule  ScheduleTexts  `yaml:"schedule"`
	Notes     NotesTexts     `yaml:"notes"`
	Files     FileTexts      `yaml:"files"`
	Cautions  CautionTexts   `yaml:"cautions"`
	Seal      SealTexts      `yaml:"seal"`
	Proof     ProofTexts     `yaml:"proof"`
}

// Wording gives a phrase for each word of an enumeration.
type Wording map[string]Phrase

// Of returns the phrase for a word, or the word itself where there is none.
func (w Wording) Of(word string) Phrase {
	if phrase, ok := w[word]; ok {
		return phrase
	}
	return Phrase(word)
}

// DocumentTexts are for the head and foot of every page.
type DocumentTexts struct {
	Titles      Wording `yaml:"titles"` // by record.Kind
	About       Wording `yaml:"about"`  // by record.Kind but service: {id}
	Why         string  `yaml:"why"`
	Number      Phrase  `yaml:"number"` // {number}
	ID          string  `yaml:"id"`
	Page        Phrase  `yaml:"page"`      // {page} {pages}
	Footer      Phrase  `yaml:"footer"`    // {machine} {serial}
	Continued   Phrase  `yaml:"continued"` // {section}
	Part        Phrase  `yaml:"part"`      // {part} {parts}
	NotMeasured string  `yaml:"not_measured"`
}

// BannerTexts stand on top of everything when the last level read was too high.
type BannerTexts struct {
	Overfilled    string `yaml:"overfilled"`
	OverfilledWhy string `yaml:"overfilled_why"`
}

// IssuerTexts are about who signed and when.
type IssuerTexts struct {
	Heading      string  `yaml:"heading"`
	By           Wording `yaml:"by"` // by record.IssuerKind
	Key          string  `yaml:"key"`
	Issued       string  `yaml:"issued"`
	Previous     string  `yaml:"previous"`
	PreviousLine Phrase  `yaml:"previous_line"` // {id} {date} {hours}
	First        string  `yaml:"first"`
}

// MachineTexts are the name plate, and the meter as found.
type MachineTexts struct {
	Make            string  `yaml:"make"`
	Model           string  `yaml:"model"`
	Serial          string  `yaml:"serial"`
	Kind            string  `yaml:"kind"`
	Position        string  `yaml:"position"`
	Power           string  `yaml:"power"`
	Vessel          string  `yaml:"vessel"`
	Hull            string  `yaml:"hull"`
	ID              string  `yaml:"id"`
	DrivenBy        string  `yaml:"driven_by"`
	InService       Phrase  `yaml:"in_service"` // {date} {hours}
	Hours           string  `yaml:"hours"`
	HoursEstimated  string  `yaml:"hours_estimated"`
	HoursLine       Phrase  `yaml:"hours_line"` // {hours}
	Meter           string  `yaml:"meter"`
	MeterState      Wording `yaml:"meter_state"`       // by record.MeterState; running: {reading}
	MeterOffset     Phrase  `yaml:"meter_offset"`      // {offset}
	Estimate        Phrase  `yaml:"estimate"`          // {basis}
	MeterChange     Phrase  `yaml:"meter_change"`      // {removed} {fitted} {why}
	MeterChangeLost Phrase  `yaml:"meter_change_lost"` // {fitted} {why}
}

// JobTexts are about the visit.
type JobTexts struct {
	Heading          string  `yaml:"heading"`
	Reason           string  `yaml:"reason"`
	Reasons          Wording `yaml:"reasons"` // by record.Reason
	Date             string  `yaml:"date"`
	Place            string  `yaml:"place"`
	Number           string  `yaml:"number"`
	Technician       string  `yaml:"technician"`
	TechnicianNumber Phrase  `yaml:"technician_number"` // {number}
	Credential       string  `yaml:"credential"`
}

// TaskTexts are about the schedule's items on this job.
type TaskTexts struct {
	Heading       string             `yaml:"heading"`
	Item          string             `yaml:"item"`
	Result        string             `yaml:"result"`
	Detail        string             `yaml:"detail"`
	Empty         string             `yaml:"empty"`
	Results       map[string]Wording `yaml:"results"`  // by schedule.Kind or "other", then by record.Result
	AsFound       Phrase             `yaml:"as_found"` // {value}
	AsLeft        Phrase             `yaml:"as_left"`  // {value}
	LookAgain     Phrase             `yaml:"look_again"`
	LookAgainAt   Phrase             `yaml:"look_again_hours"` // {hours}
	LookAgainOn   Phrase             `yaml:"look_again_date"`  // {date}
	LookAgainBoth Phrase             `yaml:"look_again_both"`  // {hours} {date}
	DoneBy        Phrase             `yaml:"done_by"`          // {name}
	Why           Phrase             `yaml:"why"`              // {why}
}

// LeftTexts are about what was put off or found and left.
type LeftTexts struct {
	Heading string  `yaml:"heading"`
	Item    string  `yaml:"item"`
	Result  string  `yaml:"result"`
	Why     string  `yaml:"why"`
	Advice  string  `yaml:"advice"`
	Advices Wording `yaml:"advices"` // by record.Advice
	Told    string  `yaml:"told"`
	Owner   string  `yaml:"owner"`
	Answers Wording `yaml:"answers"` // by record.OwnerAnswer
	Answer  string  `yaml:"answer"`
	Seen    string  `yaml:"seen"` // in what was drained
	Empty   string  `yaml:"empty"`
}

// OtherWorkTexts are about what is no item of the schedule.
type OtherWorkTexts struct {
	Heading string `yaml:"heading"`
}

// FluidTexts are about what came out, what went in, the levels, and what follows.
type FluidTexts struct {
	Heading              string  `yaml:"heading"`
	System               string  `yaml:"system"`
	Drained              string  `yaml:"drained"`
	Filled               string  `yaml:"filled"`
	Out                  string  `yaml:"out"`
	In                   string  `yaml:"in"`
	DrainedWithFilter    string  `yaml:"drained_with_filter"`
	DrainedWithoutFilter string  `yaml:"drained_without_filter"`
	DrawnDown            Phrase  `yaml:"drawn_down"`  // {amount}
	At15                 Phrase  `yaml:"at_15"`       // {within}
	AsMeasured           Phrase  `yaml:"as_measured"` // {within}
	Saw                  Phrase  `yaml:"seen"`        // {what}
	SawNothing           string  `yaml:"seen_nothing"`
	Sights               Wording `yaml:"sights"`  // by record.Sight, but for nothing
	Glycols              Wording `yaml:"glycols"` // by record.Glycol
	LevelBefore          string  `yaml:"level_before"`
	Level                string  `yaml:"level"`
	LevelNow             string  `yaml:"level_now"`
	Expected             string  `yaml:"expected"`
	LevelScale           string  `yaml:"level_scale"`
	BeforeKey            string  `yaml:"before_key"`
	ExpectedKey          string  `yaml:"expected_key"`
	DrawnDownKey         string  `yaml:"drawn_down_key"`
	WithinKey            string  `yaml:"within_key"`
	After                Phrase  `yaml:"after"`  // {minutes}
	At                   Phrase  `yaml:"at"`     // {temperature}
	Litres               Phrase  `yaml:"litres"` // {litres}
	Upper                string  `yaml:"upper"`
	Lower                string  `yaml:"lower"`

	Follows          string  `yaml:"follows"`
	Carried          Phrase  `yaml:"carried"`            // {volume} {share} {within}
	CarriedNone      Phrase  `yaml:"carried_none"`       // {within}
	ExpectedAgrees   Phrase  `yaml:"expected_agrees"`    // {expected} {within} {read}
	ExpectedDoubted  Phrase  `yaml:"expected_doubted"`   // {expected} {within} {read} {section}
	ExpectedRead     Phrase  `yaml:"expected_read"`      // {expected} {within} {read}
	ExpectedNotRead  Phrase  `yaml:"expected_not_read"`  // {expected} {within}
	Used             Phrase  `yaml:"used"`               // {volume} {hours} {method} {within}
	UsedPer100       Phrase  `yaml:"used_per_100"`       // {volume} {hours} {method} {per_100} {within}
	UsedNone         Phrase  `yaml:"used_none"`          // {volume} {hours} {method} {within}
	Gained           Phrase  `yaml:"gained"`             // {volume} {hours} {method} {within}
	Methods          Wording `yaml:"methods"`            // by record.Method
	Against          Phrase  `yaml:"against"`            // {figures}
	OfFuel           Phrase  `yaml:"of_fuel"`            // {share}
	PerEnergy        Phrase  `yaml:"per_energy"`         // {grams} {burns}
	About            Phrase  `yaml:"about"`              // {figure}
	LessThan         Phrase  `yaml:"less_than"`          // {figure}
	NotExcluded      Phrase  `yaml:"not_excluded"`       // {limit}
	NotExcludedOther Phrase  `yaml:"not_excluded_other"` // {limit}
	Trend            string  `yaml:"trend"`
	TrendKey         string  `yaml:"trend_key"`

	AtUpper        Phrase `yaml:"at_upper"`        // {volume}
	BetweenMarks   Phrase `yaml:"between_marks"`   // {volume}
	FilterHolds    Phrase `yaml:"filter_holds"`    // {volume}
	Holds          Phrase `yaml:"holds"`           // {volume}
	Density        Phrase `yaml:"density"`         // {density}
	DensityAssumed Phrase `yaml:"density_assumed"` // {density}
	MachineFile    string `yaml:"machine_file"`
	Batch          string `yaml:"batch"`
	Meets          string `yaml:"meets"`
	ToppedUp       string `yaml:"topped_up"`
	FuelUsed       string `yaml:"fuel_used"`
	Waste          string `yaml:"waste"`
	Receipt        Phrase `yaml:"receipt"` // {number}
	Held           Phrase `yaml:"held"`    // {where}
}

// PartTexts are about the parts fitted.
type PartTexts struct {
	Heading    string  `yaml:"heading"`
	Item       string  `yaml:"item"`
	Number     string  `yaml:"number"`
	Quantity   string  `yaml:"quantity"`
	Serial     Phrase  `yaml:"serial"` // {number}
	SuppliedBy string  `yaml:"supplied_by"`
	Suppliers  Wording `yaml:"suppliers"` // by record.Supplier
}

// LeakTexts are about the look for leaks.
type LeakTexts struct {
	Heading       string `yaml:"heading"`
	NoneSeen      string `yaml:"none_seen"`
	NoneSeenAfter Phrase `yaml:"none_seen_after"` // {minutes}
	Seen          string `yaml:"seen"`
	SeenWhere     Phrase `yaml:"seen_where"` // {where}
	SeenAfter     Phrase `yaml:"seen_after"` // {minutes}
	NoRecord      string `yaml:"no_record"`
}

// FindingTexts stand around the findings.
type FindingTexts struct {
	Heading    string  `yaml:"heading"`
	Severities Wording `yaml:"severities"` // by record.Severity, but for refuse
	Intro      string  `yaml:"intro"`
	Reason     Phrase  `yaml:"reason"` // {reason}
	Empty      string  `yaml:"empty"`
}

// NextTexts are about what falls due next.
type NextTexts struct {
	Heading        string `yaml:"heading"`
	Item           string `yaml:"item"`
	Last           string `yaml:"last"`
	LastLine       Phrase `yaml:"last_line"` // {date} {hours}
	Stated         string `yaml:"stated"`
	NoRecord       string `yaml:"no_record"`
	Interval       string `yaml:"interval"`
	IntervalHours  Phrase `yaml:"interval_hours"`  // {hours}
	IntervalMonths Phrase `yaml:"interval_months"` // {months}
	IntervalBoth   Phrase `yaml:"interval_both"`   // {hours} {months}
	Grace          string `yaml:"grace"`
	GraceHours     Phrase `yaml:"grace_hours"` // {hours}
	GraceDays      Phrase `yaml:"grace_days"`  // {days}
	Due            string `yaml:"due"`
	DueHours       Phrase `yaml:"due_hours"`   // {hours}
	DueReading     Phrase `yaml:"due_reading"` // {reading}
	Once           string `yaml:"once"`
	NothingMore    string `yaml:"nothing_more"`
	Used           string `yaml:"used"`
	Whichever      string `yaml:"whichever"`
	Bar            string `yaml:"bar"`
	Hours          Phrase `yaml:"hours"` // {hours}
	Days           Phrase `yaml:"days"`  // {days}
	Left           Phrase `yaml:"left"`  // {amount}
	Past           Phrase `yaml:"past"`  // {amount}
	DueFromService string `yaml:"due_from_service"`
	DueFromStated  string `yaml:"due_from_stated"`
}

// ScheduleTexts are about the schedule that the job was checked by.
type ScheduleTexts struct {
	Heading         string  `yaml:"heading"`
	Line            Phrase  `yaml:"line"` // {id} {edition}
	BasisCaption    string  `yaml:"basis_caption"`
	Basis           Wording `yaml:"basis"`            // by schedule.BasisKind
	Document        Phrase  `yaml:"document"`         // {document}
	DocumentEdition Phrase  `yaml:"document_edition"` // {edition}
	DocumentPage    Phrase  `yaml:"document_page"`    // {page}
	Governs         string  `yaml:"governs"`
	Digest          string  `yaml:"digest"`
}

// NotesTexts stand over the notes.
type NotesTexts struct {
	Heading string `yaml:"heading"`
}

// FileTexts are about the files kept beside the record.
type FileTexts struct {
	Heading string `yaml:"heading"`
	Name    string `yaml:"name"`
	Digest  string `yaml:"digest"`
}

// CautionTexts stand around the cautions.
type CautionTexts struct {
	Heading string `yaml:"heading"`
	Governs string `yaml:"governs"`
}

// SealTexts stand beside the QR code.
type SealTexts struct {
	Layout  Phrase `yaml:"layout"` // {format} {renderer}
	Page    Phrase `yaml:"page"`   // {host}
	NoPage  string `yaml:"no_page"`
	Warning string `yaml:"warning"`
	Holds   string `yaml:"holds"`
	How     string `yaml:"how"`
	Several string `yaml:"several"`
}

// ProofTexts say what a signature shows and what it does not.
type ProofTexts struct {
	DoesHeading    string   `yaml:"does_heading"`
	Does           string   `yaml:"does"`
	DoesNotHeading string   `yaml:"does_not_heading"`
	DoesNot        []string `yaml:"does_not"`
}

var report = once[Texts]("report.yaml")

// Report returns the captions of a service report. Callers must not change the
// lists and tables in it.
func Report() Texts { return report() }

// ResultOf says in people's words what came of a schedule item of that kind:
// replaced, cleaned, inspected.
func (t TaskTexts) ResultOf(kind schedule.Kind, result record.Result) string {
	return string(t.Results[kind.String()].Of(result.String()))
}

// ResultOfOther says the same of work that is no item of the schedule.
func (t TaskTexts) ResultOfOther(result record.Result) string {
	return string(t.Results["other"].Of(result.String()))
}
