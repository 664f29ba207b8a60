package words

import (
	"hourseal/record"
	"hourseal/record/schedule"
)

// Texts is templates/words/report.yaml: the captions of a service report, one
// field a section.
type Texts struct {
	Document  DocumentTexts  `json:"document"`
	Banner    BannerTexts    `json:"banner"`
	Issuer    IssuerTexts    `json:"issuer"`
	Machine   MachineTexts   `json:"machine"`
	Job       JobTexts       `json:"job"`
	Tasks     TaskTexts      `json:"tasks"`
	Left      LeftTexts      `json:"left"`
	OtherWork OtherWorkTexts `json:"other_work"`
	Fluids    FluidTexts     `json:"fluids"`
	Parts     PartTexts      `json:"parts"`
	LeakCheck LeakTexts      `json:"leak_check"`
	Findings  FindingTexts   `json:"findings"`
	Next      NextTexts      `json:"next"`
	Schedule  ScheduleTexts  `json:"schedule"`
	Notes     NotesTexts     `json:"notes"`
	Files     FileTexts      `json:"files"`
	Cautions  CautionTexts   `json:"cautions"`
	Seal      SealTexts      `json:"seal"`
	Proof     ProofTexts     `json:"proof"`
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
	Titles      Wording `json:"titles"` // by record.Kind
	About       Wording `json:"about"`  // by record.Kind but service: {id}
	Why         string  `json:"why"`
	Number      Phrase  `json:"number"` // {number}
	ID          string  `json:"id"`
	Page        Phrase  `json:"page"`      // {page} {pages}
	Footer      Phrase  `json:"footer"`    // {machine} {serial}
	Continued   Phrase  `json:"continued"` // {section}
	Part        Phrase  `json:"part"`      // {part} {parts}
	NotMeasured string  `json:"not_measured"`
}

// BannerTexts stand on top of everything when the last level read was too high.
type BannerTexts struct {
	Overfilled    string `json:"overfilled"`
	OverfilledWhy string `json:"overfilled_why"`
}

// IssuerTexts are about who signed and when.
type IssuerTexts struct {
	Heading      string  `json:"heading"`
	By           Wording `json:"by"` // by record.IssuerKind
	Key          string  `json:"key"`
	Issued       string  `json:"issued"`
	Previous     string  `json:"previous"`
	PreviousLine Phrase  `json:"previous_line"` // {id} {date} {hours}
	First        string  `json:"first"`
}

// MachineTexts are the name plate, and the meter as found.
type MachineTexts struct {
	Make            string  `json:"make"`
	Model           string  `json:"model"`
	Serial          string  `json:"serial"`
	Kind            string  `json:"kind"`
	Position        string  `json:"position"`
	Power           string  `json:"power"`
	Vessel          string  `json:"vessel"`
	Hull            string  `json:"hull"`
	ID              string  `json:"id"`
	DrivenBy        string  `json:"driven_by"`
	InService       Phrase  `json:"in_service"` // {date} {hours}
	Hours           string  `json:"hours"`
	HoursEstimated  string  `json:"hours_estimated"`
	HoursLine       Phrase  `json:"hours_line"` // {hours}
	Meter           string  `json:"meter"`
	MeterState      Wording `json:"meter_state"`       // by record.MeterState; running: {reading}
	MeterOffset     Phrase  `json:"meter_offset"`      // {offset}
	Estimate        Phrase  `json:"estimate"`          // {basis}
	MeterChange     Phrase  `json:"meter_change"`      // {removed} {fitted} {why}
	MeterChangeLost Phrase  `json:"meter_change_lost"` // {fitted} {why}
}

// JobTexts are about the visit.
type JobTexts struct {
	Heading          string  `json:"heading"`
	Reason           string  `json:"reason"`
	Reasons          Wording `json:"reasons"` // by record.Reason
	Date             string  `json:"date"`
	Place            string  `json:"place"`
	Number           string  `json:"number"`
	Technician       string  `json:"technician"`
	TechnicianNumber Phrase  `json:"technician_number"` // {number}
	Credential       string  `json:"credential"`
}

// TaskTexts are about the schedule's items on this job.
type TaskTexts struct {
	Heading       string             `json:"heading"`
	Item          string             `json:"item"`
	Result        string             `json:"result"`
	Detail        string             `json:"detail"`
	Empty         string             `json:"empty"`
	Results       map[string]Wording `json:"results"`  // by schedule.Kind or "other", then by record.Result
	AsFound       Phrase             `json:"as_found"` // {value}
	AsLeft        Phrase             `json:"as_left"`  // {value}
	LookAgain     Phrase             `json:"look_again"`
	LookAgainAt   Phrase             `json:"look_again_hours"` // {hours}
	LookAgainOn   Phrase             `json:"look_again_date"`  // {date}
	LookAgainBoth Phrase             `json:"look_again_both"`  // {hours} {date}
	DoneBy        Phrase             `json:"done_by"`          // {name}
	Why           Phrase             `json:"why"`              // {why}
}

// LeftTexts are about what was put off or found and left.
type LeftTexts struct {
	Heading string  `json:"heading"`
	Item    string  `json:"item"`
	Result  string  `json:"result"`
	Why     string  `json:"why"`
	Advice  string  `json:"advice"`
	Advices Wording `json:"advices"` // by record.Advice
	Told    string  `json:"told"`
	Owner   string  `json:"owner"`
	Answers Wording `json:"answers"` // by record.OwnerAnswer
	Answer  string  `json:"answer"`
	Seen    string  `json:"seen"` // in what was drained
	Empty   string  `json:"empty"`
}

// OtherWorkTexts are about what is no item of the schedule.
type OtherWorkTexts struct {
	Heading string `json:"heading"`
}

// FluidTexts are about what came out, what went in, the levels, and what follows.
type FluidTexts struct {
	Heading              string  `json:"heading"`
	System               string  `json:"system"`
	Drained              string  `json:"drained"`
	Filled               string  `json:"filled"`
	Out                  string  `json:"out"`
	In                   string  `json:"in"`
	DrainedWithFilter    string  `json:"drained_with_filter"`
	DrainedWithoutFilter string  `json:"drained_without_filter"`
	DrawnDown            Phrase  `json:"drawn_down"`  // {amount}
	At15                 Phrase  `json:"at_15"`       // {within}
	AsMeasured           Phrase  `json:"as_measured"` // {within}
	Saw                  Phrase  `json:"seen"`        // {what}
	SawNothing           string  `json:"seen_nothing"`
	Sights               Wording `json:"sights"`  // by record.Sight, but for nothing
	Glycols              Wording `json:"glycols"` // by record.Glycol
	LevelBefore          string  `json:"level_before"`
	Level                string  `json:"level"`
	LevelNow             string  `json:"level_now"`
	Expected             string  `json:"expected"`
	LevelScale           string  `json:"level_scale"`
	BeforeKey            string  `json:"before_key"`
	ExpectedKey          string  `json:"expected_key"`
	DrawnDownKey         string  `json:"drawn_down_key"`
	WithinKey            string  `json:"within_key"`
	After                Phrase  `json:"after"`  // {minutes}
	At                   Phrase  `json:"at"`     // {temperature}
	Litres               Phrase  `json:"litres"` // {litres}
	Upper                string  `json:"upper"`
	Lower                string  `json:"lower"`

	Follows          string  `json:"follows"`
	Carried          Phrase  `json:"carried"`            // {volume} {share} {within}
	CarriedNone      Phrase  `json:"carried_none"`       // {within}
	ExpectedAgrees   Phrase  `json:"expected_agrees"`    // {expected} {within} {read}
	ExpectedDoubted  Phrase  `json:"expected_doubted"`   // {expected} {within} {read} {section}
	ExpectedRead     Phrase  `json:"expected_read"`      // {expected} {within} {read}
	ExpectedNotRead  Phrase  `json:"expected_not_read"`  // {expected} {within}
	Used             Phrase  `json:"used"`               // {volume} {hours} {method} {within}
	UsedPer100       Phrase  `json:"used_per_100"`       // {volume} {hours} {method} {per_100} {within}
	UsedNone         Phrase  `json:"used_none"`          // {volume} {hours} {method} {within}
	Gained           Phrase  `json:"gained"`             // {volume} {hours} {method} {within}
	Methods          Wording `json:"methods"`            // by record.Method
	Against          Phrase  `json:"against"`            // {figures}
	OfFuel           Phrase  `json:"of_fuel"`            // {share}
	PerEnergy        Phrase  `json:"per_energy"`         // {grams} {burns}
	About            Phrase  `json:"about"`              // {figure}
	LessThan         Phrase  `json:"less_than"`          // {figure}
	NotExcluded      Phrase  `json:"not_excluded"`       // {limit}
	NotExcludedOther Phrase  `json:"not_excluded_other"` // {limit}
	Trend            string  `json:"trend"`
	TrendKey         string  `json:"trend_key"`

	AtUpper        Phrase `json:"at_upper"`        // {volume}
	BetweenMarks   Phrase `json:"between_marks"`   // {volume}
	FilterHolds    Phrase `json:"filter_holds"`    // {volume}
	Holds          Phrase `json:"holds"`           // {volume}
	Density        Phrase `json:"density"`         // {density}
	DensityAssumed Phrase `json:"density_assumed"` // {density}
	MachineFile    string `json:"machine_file"`
	Batch          string `json:"batch"`
	Meets          string `json:"meets"`
	ToppedUp       string `json:"topped_up"`
	FuelUsed       string `json:"fuel_used"`
	Waste          string `json:"waste"`
	Receipt        Phrase `json:"receipt"` // {number}
	Held           Phrase `json:"held"`    // {where}
}

// PartTexts are about the parts fitted.
type PartTexts struct {
	Heading    string  `json:"heading"`
	Item       string  `json:"item"`
	Number     string  `json:"number"`
	Quantity   string  `json:"quantity"`
	Serial     Phrase  `json:"serial"` // {number}
	SuppliedBy string  `json:"supplied_by"`
	Suppliers  Wording `json:"suppliers"` // by record.Supplier
}

// LeakTexts are about the look for leaks.
type LeakTexts struct {
	Heading       string `json:"heading"`
	NoneSeen      string `json:"none_seen"`
	NoneSeenAfter Phrase `json:"none_seen_after"` // {minutes}
	Seen          string `json:"seen"`
	SeenWhere     Phrase `json:"seen_where"` // {where}
	SeenAfter     Phrase `json:"seen_after"` // {minutes}
	NoRecord      string `json:"no_record"`
}

// FindingTexts stand around the findings.
type FindingTexts struct {
	Heading    string  `json:"heading"`
	Severities Wording `json:"severities"` // by record.Severity, but for refuse
	Intro      string  `json:"intro"`
	Reason     Phrase  `json:"reason"` // {reason}
	Empty      string  `json:"empty"`
}

// NextTexts are about what falls due next.
type NextTexts struct {
	Heading        string `json:"heading"`
	Item           string `json:"item"`
	Last           string `json:"last"`
	LastLine       Phrase `json:"last_line"` // {date} {hours}
	Stated         string `json:"stated"`
	NoRecord       string `json:"no_record"`
	Interval       string `json:"interval"`
	IntervalHours  Phrase `json:"interval_hours"`  // {hours}
	IntervalMonths Phrase `json:"interval_months"` // {months}
	IntervalBoth   Phrase `json:"interval_both"`   // {hours} {months}
	Grace          string `json:"grace"`
	GraceHours     Phrase `json:"grace_hours"` // {hours}
	GraceDays      Phrase `json:"grace_days"`  // {days}
	Due            string `json:"due"`
	DueHours       Phrase `json:"due_hours"`   // {hours}
	DueReading     Phrase `json:"due_reading"` // {reading}
	Once           string `json:"once"`
	NothingMore    string `json:"nothing_more"`
	Used           string `json:"used"`
	Whichever      string `json:"whichever"`
	Bar            string `json:"bar"`
	Hours          Phrase `json:"hours"` // {hours}
	Days           Phrase `json:"days"`  // {days}
	Left           Phrase `json:"left"`  // {amount}
	Past           Phrase `json:"past"`  // {amount}
	DueFromService string `json:"due_from_service"`
	DueFromStated  string `json:"due_from_stated"`
}

// ScheduleTexts are about the schedule that the job was checked by.
type ScheduleTexts struct {
	Heading         string  `json:"heading"`
	Line            Phrase  `json:"line"` // {id} {edition}
	BasisCaption    string  `json:"basis_caption"`
	Basis           Wording `json:"basis"`            // by schedule.BasisKind
	Document        Phrase  `json:"document"`         // {document}
	DocumentEdition Phrase  `json:"document_edition"` // {edition}
	DocumentPage    Phrase  `json:"document_page"`    // {page}
	Governs         string  `json:"governs"`
	Digest          string  `json:"digest"`
}

// NotesTexts stand over the notes.
type NotesTexts struct {
	Heading string `json:"heading"`
}

// FileTexts are about the files kept beside the record.
type FileTexts struct {
	Heading string `json:"heading"`
	Name    string `json:"name"`
	Digest  string `json:"digest"`
}

// CautionTexts stand around the cautions.
type CautionTexts struct {
	Heading string `json:"heading"`
	Governs string `json:"governs"`
}

// SealTexts stand beside the QR code.
type SealTexts struct {
	Layout  Phrase `json:"layout"` // {format} {renderer}
	Page    Phrase `json:"page"`   // {host}
	NoPage  string `json:"no_page"`
	Warning string `json:"warning"`
	Holds   string `json:"holds"`
	How     string `json:"how"`
	Several string `json:"several"`
}

// ProofTexts say what a signature shows and what it does not.
type ProofTexts struct {
	DoesHeading    string   `json:"does_heading"`
	Does           string   `json:"does"`
	DoesNotHeading string   `json:"does_not_heading"`
	DoesNot        []string `json:"does_not"`
}

var report = once[Texts]("report.json")

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
