package main

import (
	"io"
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/history"
)

// historyVersion is the version of the JSON, which history.schema.json describes: it
// changes when a key changes or goes, not when one is added.
const historyVersion = 1

// The JSON of "hourseal history": one object a machine, then one with what was set
// aside.
type historyAnswer struct {
	Version  int            `json:"version"`
	Machine  *machineJSON   `json:"machine"`
	Sentence string         `json:"sentence"`
	Exit     int            `json:"exit"`
	AsStands bool           `json:"trusts_nobody"`
	Serial   *string        `json:"serial_match"`
	Span     *spanJSON      `json:"span"`
	Faults   []faultJSON    `json:"faults"`
	Records  []entryJSON    `json:"records"`
	Chains   []chainJSON    `json:"chains"`
	Tasks    []keptTaskJSON `json:"tasks"`
	Stands   *standsJSON    `json:"standing"`
	Lists    []listJSON     `json:"lists"`
	Asks     []questionJSON `json:"questions"`
	NotShown []string       `json:"not_shown"`
}

type asideAnswer struct {
	Version int         `json:"version"`
	Aside   []asideJSON `json:"set_aside"`
}

type asideJSON struct {
	Input    string              `json:"input"`
	Why      history.AsideReason `json:"why"`
	Verdict  verify.Verdict      `json:"verdict"`
	Sentence string              `json:"sentence"`
}

type spanJSON struct {
	From pointJSON      `json:"from"`
	To   pointJSON      `json:"to"`
	Run  quantity.Hours `json:"hours_run"`
}

type faultJSON struct {
	Code    history.FaultCode `json:"code"`
	Words   string            `json:"sentence"`
	Record  *string           `json:"record"`
	Other   *string           `json:"other"`
	Missing *missingJSON      `json:"missing"`
	Exit    int               `json:"exit"`
}

type missingJSON struct {
	Record string     `json:"record"`
	Number *uint32    `json:"number"`
	Since  *uint32    `json:"since"`
	Point  *pointJSON `json:"at"`
}

type entryJSON struct {
	Record    string           `json:"record"`
	Number    uint32           `json:"number"`
	Kind      string           `json:"kind"`
	At        pointJSON        `json:"at"`
	Written   *string          `json:"written"`
	Signer    signerJSON       `json:"signer"`
	Inputs    []string         `json:"inputs"`
	NotOrig   []string         `json:"not_original"`
	Counts    history.Counting `json:"counts"`
	AfterGap  bool             `json:"after_gap"`
	By        *string          `json:"by"`
	Subject   *string          `json:"subject"`
	Why       *string          `json:"why"`
	Previous  *string          `json:"previous"`
	NotBefore *boundJSON       `json:"not_before"`
	NotAfter  *boundJSON       `json:"no_later_than"`
}

type boundJSON struct {
	Date    quantity.Date       `json:"date"`
	Because history.BoundReason `json:"because"`
	Record  *string             `json:"record"`
	Another bool                `json:"another_signer"`
}

type chainJSON struct {
	Records []string     `json:"records"`
	Words   string       `json:"sentence"`
	Bounded *boundedJSON `json:"bounded"`
}

type boundedJSON struct {
	Until quantity.Date `json:"until"`
	By    string        `json:"by"`
}

type keptTaskJSON struct {
	Task      string            `json:"task"`
	Title     string            `json:"title"`
	Every     intervalJSON      `json:"every"`
	Grace     graceJSON         `json:"grace"`
	Schedules []usedJSON        `json:"schedules"`
	Done      []doneJSON        `json:"done"`
	Stated    *pointJSON        `json:"stated"`
	Waits     []waitJSON        `json:"put_off"`
	Now       *dueJSONPoint     `json:"due"`
	State     history.Adherence `json:"state"`
	Overdue   quantity.Hours    `json:"hours_run_overdue"`
	Unknown   quantity.Hours    `json:"hours_not_known"`
	Run       quantity.Hours    `json:"hours_run"`
	About     bool              `json:"worked_out"`
	Share     *quantity.Ratio   `json:"share_inside"`
	Stretches []stretchJSON     `json:"stretches"`
}

type intervalJSON struct {
	Hours  *quantity.Hours  `json:"hours"`
	Months *quantity.Months `json:"months"`
}

type graceJSON struct {
	Hours quantity.Hours `json:"hours"`
	Days  quantity.Days  `json:"days"`
}

type usedJSON struct {
	ID      string        `json:"id"`
	Edition uint          `json:"edition"`
	Basis   string        `json:"basis"`
	Doc     *string       `json:"document"`
	From    quantity.Date `json:"from"`
}

type doneJSON struct {
	Record string            `json:"record"`
	At     pointJSON         `json:"at"`
	Due    *dueJSONPoint     `json:"due"`
	State  history.Adherence `json:"state"`
	Hours  *quantity.Hours   `json:"hours_from_due"`
	Days   *quantity.Days    `json:"days_from_due"`
}

type dueJSONPoint struct {
	Hours  *quantity.Hours `json:"hours"`
	Date   *quantity.Date  `json:"date"`
	Stated bool            `json:"stated"`
}

type waitJSON struct {
	Result  string         `json:"result"`
	Records []string       `json:"records"`
	Since   pointJSON      `json:"since"`
	Until   *pointJSON     `json:"until"`
	Hours   quantity.Hours `json:"hours_run"`
	Days    quantity.Days  `json:"days"`
	Why     *string        `json:"why"`
	Advice  *string        `json:"advice"`
	Owner   *string        `json:"owner"`
}

type stretchJSON struct {
	From  pointJSON         `json:"from"`
	To    pointJSON         `json:"to"`
	State history.Adherence `json:"state"`
}

type standsJSON struct {
	On    quantity.Date   `json:"on"`
	Given bool            `json:"hours_given"`
	At    *quantity.Hours `json:"hours"`
	Low   *quantity.Hours `json:"hours_low"`
	High  *quantity.Hours `json:"hours_high"`
	Shown int             `json:"records_shown"`
	All   int             `json:"records"`
	Tasks []stoodTaskJSON `json:"tasks"`
}

type stoodTaskJSON struct {
	Task  string    `json:"task"`
	Shown stoodJSON `json:"by_records_shown"`
	All   stoodJSON `json:"by_all_records"`
}

type stoodJSON struct {
	Last  *pointJSON         `json:"last"`
	Due   *dueJSONPoint      `json:"due"`
	State history.Adherence  `json:"state"`
	Least *history.Adherence `json:"state_at_fewest_hours"`
	Most  *history.Adherence `json:"state_at_most_hours"`
	Hours *quantity.Hours    `json:"hours_from_due"`
	Days  *quantity.Days     `json:"days_from_due"`
}

type listJSON struct {
	Input  string        `json:"input"`
	Signer signerJSON    `json:"signer"`
	Until  quantity.Date `json:"until"`
	For    string        `json:"for"`
	Counts bool          `json:"counts"`
}

type questionJSON struct {
	Code    string   `json:"code"`
	Text    string   `json:"text"`
	Records []string `json:"records"`
}

func (p *program) historyJSON(h history.History) error {
	for line, err := range inOrder(h.Machines, func(m *history.Machine) (string, error) { return jsonLine(machineHistory(m, h.AsTheyStand)) }) {
		if err == nil {
			_, err = io.WriteString(p.stdout, line)
		}
		if err != nil {
			return err
		}
	}
	if len(h.Aside) == 0 {
		return nil
	}
	out := asideAnswer{Version: historyVersion, Aside: []asideJSON{}}
	for _, a := range h.Aside {
		out.Aside = append(out.Aside, asideJSON{a.Name, a.Why, a.Verdict, a.Sentence})
	}
	return p.json(out)
}

// mapped makes the list of a JSON array, which is never null.
func mapped[A, B any](list []A, each func(A) B) []B {
	out := make([]B, 0, len(list))
	for _, a := range list {
		out = append(out, each(a))
	}
	return out
}

func hexID(id record.ID) string { return sign.ID(id).Hex() }

// pointed is a JSON point of one that may be missing.
func pointed(p *schedule.Point) *pointJSON {
	if p == nil {
		return nil
	}
	return &pointJSON{p.Date, p.Hours}
}

func at(p schedule.Point) pointJSON { return pointJSON{p.Date, p.Hours} }

func machineHistory(m *history.Machine, asTheyStand bool) historyAnswer {
	ids := func(places []int) []string {
		return mapped(places, func(i int) string { return hexID(m.Entries[i].ID) })
	}
	out := historyAnswer{
		Version: historyVersion, Machine: &machineJSON{m.Make, m.Model, m.Serial, orNull(m.Vessel), orNull(m.Hull)},
		Sentence: m.Sentence(), Exit: m.ExitCode(), AsStands: asTheyStand, Serial: orNull(serialWords[m.SerialMatch]),
		Faults:  mapped(m.Faults, func(f history.Fault) faultJSON { return faultOf(m, f) }),
		Records: make([]entryJSON, 0, len(m.Entries)),
		Chains: mapped(m.Chains, func(c history.Chain) chainJSON {
			chain := chainJSON{Records: ids(c.Entries), Words: m.TailWords(c)}
			if b := c.Tail.Bounded; b != nil {
				chain.Bounded = &boundedJSON{b.Until, b.By}
			}
			return chain
		}),
		Tasks: mapped(m.Tasks, func(t history.Task) keptTaskJSON { return keptOf(m, t, ids) }),
		Lists: mapped(m.Lists, func(l history.ListAnswer) listJSON {
			return listJSON{l.Name, signerOf(l.Signer, l.List.Issuer.Kind), l.List.Until, l.List.For, l.Counts}
		}),
		Asks: mapped(m.Questions, func(q history.Question) questionJSON {
			return questionJSON{q.Code, q.Text, ids(q.Entries)}
		}),
		NotShown: history.NotShown,
	}
	if s := m.Span; s != nil {
		out.Span = &spanJSON{at(s.First), at(s.Last), s.Run}
	}
	for i := range m.Entries {
		out.Records = append(out.Records, entryOf(m, &m.Entries[i]))
	}
	if s := m.Stands; s != nil {
		out.Stands = &standsJSON{s.On, s.Hours.Given, s.Hours.At, s.Hours.Low, s.Hours.High, s.Shown, s.All,
			mapped(s.Tasks, func(t history.Standing) stoodTaskJSON {
				return stoodTaskJSON{t.Task, stoodOf(t.Shown), stoodOf(t.All)}
			})}
	}
	return out
}

var serialWords = map[verify.Match]string{verify.Same: "same", verify.Probably: "probably"}

func signerOf(s verify.Signer, kind record.IssuerKind) signerJSON {
	return signerJSON{orNull(s.Standing.Trusted.Name), s.Key.Fingerprint(), s.Known, s.ValidForDate(), orNull(kind.String())}
}

func faultOf(m *history.Machine, f history.Fault) faultJSON {
	out := faultJSON{Code: f.Code, Words: m.FaultWords(f), Exit: f.ExitCode()}
	for place, id := range map[int]**string{f.Entry: &out.Record, f.Other: &out.Other} {
		if place >= 0 {
			*id = new(hexID(m.Entries[place].ID))
		}
	}
	if f.Missing != nil && f.Missing.ID != (record.ID{}) {
		out.Missing = &missingJSON{Record: hexID(f.Missing.ID), Point: pointed(f.Missing.Point)}
		if f.Missing.Number > 0 {
			out.Missing.Number = &f.Missing.Number
		}
		if f.Missing.Since > 0 {
			out.Missing.Since = &f.Missing.Since
		}
	}
	return out
}

func entryOf(m *history.Machine, e *history.Entry) entryJSON {
	r := e.Record
	out := entryJSON{
		Record: hexID(e.ID), Number: r.Number, Kind: r.Kind.String(), At: at(e.Point()), Written: orNull(written(r)),
		Signer: signerOf(*e.Signer, r.Issuer.Kind), Inputs: e.Names, NotOrig: inDoubt(e),
		Counts: e.Counts, AfterGap: e.AfterGap, NotBefore: boundOf(m, e.Exists.NotBefore), NotAfter: boundOf(m, e.Exists.NotAfter),
	}
	if e.By != nil {
		out.By = new(hexID(e.By.ID))
	}
	if r.Subject != nil {
		out.Subject, out.Why = new(hexID(r.Subject.Record)), orNull(r.Subject.Why)
	}
	if r.Previous != nil {
		out.Previous = new(hexID(r.Previous.Record))
	}
	return out
}

// inDoubt names the inputs whose page is not, or is not shown to be, the record's.
func inDoubt(e *history.Entry) []string {
	names := append(append([]string{}, e.NotOriginal...), e.NotCompared...)
	slices.Sort(names)
	return names
}

func boundOf(m *history.Machine, b *history.Bound) *boundJSON {
	if b == nil {
		return nil
	}
	out := &boundJSON{Date: b.Date, Because: b.Because, Another: b.Another}
	if b.Entry >= 0 {
		out.Record = new(hexID(m.Entries[b.Entry].ID))
	}
	return out
}

func keptOf(m *history.Machine, t history.Task, ids func([]int) []string) keptTaskJSON {
	out := keptTaskJSON{
		Task: t.ID, Title: t.Title, Grace: graceJSON{t.Leeway.Hours, t.Leeway.Days},
		Schedules: mapped(t.By, func(s history.ScheduleUsed) usedJSON {
			return usedJSON{s.ID, s.Edition, s.Basis.Kind.String(), orNull(s.Basis.Document), s.From.Date}
		}),
		Done: mapped(t.Done, func(d history.Done) doneJSON {
			return doneJSON{hexID(m.Entries[d.Entry].ID), at(d.Point), dueOf(d.Was), d.When.State, d.When.Hours, d.When.Days}
		}),
		Stated: pointed(t.Stated),
		Waits: mapped(t.Waits, func(w history.Wait) waitJSON {
			out := waitJSON{Result: w.Result.String(), Records: ids(w.Entries), Since: at(w.Since), Until: pointed(w.Until), Hours: w.Ran, Days: w.Took}
			if a := w.Answer; a != nil {
				out.Why, out.Advice, out.Owner = orNull(a.Why), orNull(a.Advice.String()), orNull(a.Owner.String())
			}
			return out
		}),
		Now: dueOf(t.Now), State: t.At.State, Overdue: t.Overdue, Unknown: t.Unknown, Run: t.Run, About: t.About, Share: t.InsideShare(),
		Stretches: mapped(t.Stretches, func(s history.Stretch) stretchJSON { return stretchJSON{at(s.From), at(s.To), s.State} }),
	}
	if t.Every.Hours > 0 {
		out.Every.Hours = &t.Every.Hours
	}
	if t.Every.Months > 0 {
		out.Every.Months = &t.Every.Months
	}
	return out
}

func dueOf(d *history.DuePoint) *dueJSONPoint {
	if d == nil {
		return nil
	}
	return &dueJSONPoint{d.Due.Hours, d.Due.Date, d.Stated}
}

func stoodOf(s history.Stood) stoodJSON {
	out := stoodJSON{Last: pointed(s.Last), Due: dueOf(s.Was), State: s.At.State, Hours: s.At.Hours, Days: s.At.Days}
	if s.Least != "" {
		out.Least = &s.Least
	}
	if s.Most != "" {
		out.Most = &s.Most
	}
	return out
}
