package historytest

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"fmt"
	"slices"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/record/treehead"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/history"
)

// Sealed is a record of a tale as its yard signed it.
type Sealed struct {
	Label    string
	Record   *record.Record
	ID       record.ID
	Envelope []byte
	Previous *Sealed // that it cites; nil for none
	About    *Sealed // its subject; nil for none
}

// Told is a tale, signed.
type Told struct {
	*Tale
	All    []*Sealed // in the order of the file, those that the reader lacks among them
	Files  []File    // what the reader has
	Reader verify.Reader

	t      Reporter
	labels map[string]*Sealed
	names  map[record.ID]string
}

// File is one input of the reader's: the envelope of a record or of a list.
type File struct {
	Name string // its label
	Data []byte
}

// Reporter is a test, or one run of a property.
type Reporter interface {
	Helper()
	Errorf(format string, args ...any)
	Fatalf(format string, args ...any)
	Fatal(args ...any)
}

// must takes what cannot fail in a file that was written with care.
func must[T any](t Reporter) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func keyOf(t Reporter, seed string) *sign.PrivateKey {
	t.Helper()
	fixed := sha256.Sum256([]byte(seed))
	return must[*sign.PrivateKey](t)(sign.NewKey(bytes.NewReader(fixed[:])))
}

// Tell signs all records and lists of a tale with fixed keys.
func Tell(t Reporter, s *Tale) *Told {
	t.Helper()
	w := &Told{Tale: s, t: t, labels: map[string]*Sealed{}, names: map[record.ID]string{}}
	for _, r := range s.Records {
		if r.Repeat == nil {
			w.add(r, 1)
			continue
		}
		for n := range r.Repeat.Times {
			one := *r
			one.As = fmt.Sprint(r.As, n+1)
			one.On = Date(quantity.Date(r.On).AddDays(quantity.Days(n) * r.Repeat.Days))
			one.Hours = r.Hours + Hours(n)*r.Repeat.Hours
			w.add(&one, n+1)
		}
	}
	for _, e := range w.All {
		if !slices.Contains(s.LeaveOut, e.Label) {
			w.Files = append(w.Files, File{e.Label, e.Envelope})
		}
	}
	for _, l := range s.Lists {
		w.addList(l)
	}
	names := make([]string, 0, len(s.Yards))
	for name := range s.Yards {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if y := s.Yards[name]; y.Trusted {
			w.Reader.Trust = append(w.Reader.Trust, y.entry(t))
		}
	}
	w.Reader.Serial = s.Serial
	return w
}

func (y *Yard) entry(t Reporter) sign.Trusted {
	entry := sign.Trusted{Name: y.Name, Key: keyOf(t, y.Seed).Public(), From: (*sign.Day)(dayOf(y.From)), Until: (*sign.Day)(dayOf(y.Until))}
	if y.Revoked != nil {
		entry.Revoked = &sign.Revocation{From: sign.Day(y.Revoked.From), Why: sign.RevokedWhy(y.Revoked.Why)}
	}
	return entry
}

func dayOf(d *Date) *sign.Day {
	if d == nil {
		return nil
	}
	return new(sign.Day(*d))
}

// Input is what the reader hands in: the files, verified one by one.
func (w *Told) Input() history.Input {
	var items []history.Item
	for _, f := range w.Files {
		items = append(items, history.Item{Name: f.Name, Result: verify.Run(f.Data, w.Reader, nil)})
	}
	return w.InputOf(items)
}

// InputOf is the same of items that were verified already.
func (w *Told) InputOf(items []history.Item) history.Input {
	w.t.Helper()
	in := history.Input{Items: items, Trust: w.Reader.Trust, Serial: w.Serial,
		On: (*quantity.Date)(w.On), Hours: (*quantity.Hours)(w.Hours), Received: map[record.ID]quantity.Date{}}
	for label, date := range w.Received {
		in.Received[w.Find(label).ID] = quantity.Date(date)
	}
	for _, h := range w.Heads {
		w.addHead(h, &in)
	}
	for _, k := range w.Keys {
		in.Statements = append(in.Statements, w.statement(k))
	}
	return in
}

// Name is the label of a record, "" for one that is none of the tale's.
func (w *Told) Name(id record.ID) string { return w.names[id] }

// Find is the record of a label.
func (w *Told) Find(label string) *Sealed {
	w.t.Helper()
	e, ok := w.labels[label]
	if !ok {
		w.t.Fatalf("no record %q before this", label)
	}
	return e
}

// addHead puts a yard's ledger line, and the paths to it, into the input.
func (w *Told) addHead(h *Head, in *history.Input) {
	w.t.Helper()
	const evening = 20 * 3600
	var ends []record.ID
	for _, label := range h.Ends {
		ends = append(ends, w.Find(label).ID)
	}
	for n := range h.Others {
		ends = append(ends, sha256.Sum256(fmt.Append(nil, "another machine's last record", n)))
	}
	tree := treehead.New(int64(h.At)*86400+evening, ends)
	in.Heads = append(in.Heads, history.Head{Line: tree.Line(), Received: quantity.Date(h.Received)})
	for _, label := range h.Paths {
		path, there := tree.Path(w.Find(label).ID)
		if !there {
			w.t.Fatalf("record %s is no end of the ledger line", label)
		}
		in.Paths = append(in.Paths, path)
	}
}

func (w *Told) statement(k *KeyStatement) sign.Statement {
	w.t.Helper()
	const noon = 12 * 3600
	about := keyOf(w.t, w.yard(k.About).Seed)
	content := sign.StatementContent{Kind: sign.Revoke, Subject: about.Public(), From: sign.Day(k.From), Why: sign.RevokedWhy(k.Why),
		StatedAt: int64(k.On)*86400 + noon, Number: k.Number}
	if k.To != "" {
		content.Kind, content.Other = sign.Renew, keyOf(w.t, w.yard(k.To).Seed).Public()
	}
	payload := must[[]byte](w.t)(content.Encode())
	return must[sign.Statement](w.t)(sign.ReadStatement(must[[]byte](w.t)(sign.Seal(sign.KeyStatementV1, payload, about))))
}

// add signs one record, which goes on from its yard's last of the machine.
func (w *Told) add(y *Record, nth int) {
	w.t.Helper()
	e := &Sealed{Label: y.As}
	if _, twice := w.labels[y.As]; twice || y.As == "" {
		w.t.Fatalf("record %q: give each a label of its own", y.As)
	}
	machine := cmp.Or(y.Machine, "port")
	for _, before := range w.All {
		if before.Record.Issuer.Name == w.yard(y.Yard).Name && before.Record.Machine.ID == "gannet-"+machine {
			e.Previous = before
		}
	}
	switch y.After {
	case "":
	case "none":
		e.Previous = nil
	default:
		e.Previous = w.Find(y.After)
	}
	e.Record = w.record(y, machine, e, nth)
	payload, err := record.Encode(e.Record)
	if err != nil {
		w.t.Fatalf("record %s: %v", y.As, err)
	}
	e.Envelope = must[[]byte](w.t)(sign.Seal(sign.RecordV1, payload, keyOf(w.t, w.yard(y.Yard).Seed)))
	e.ID = record.ID(sign.IDOf(e.Envelope))
	w.All = append(w.All, e)
	w.labels[y.As], w.names[e.ID] = e, y.As
}

func (w *Told) yard(name string) *Yard {
	w.t.Helper()
	y, ok := w.Yards[name]
	if !ok {
		w.t.Fatalf("no yard %q", name)
	}
	return y
}

func (w *Told) machine(name string) record.Machine {
	w.t.Helper()
	p, ok := w.Machines[name]
	if !ok {
		w.t.Fatalf("no machine %q", name)
	}
	return record.Machine{ID: "gannet-" + name, Vessel: "Gannet", Hull: "GB-ELS00042A323", Kind: "propulsion diesel", Position: name,
		Make: cmp.Or(p.Make, "Corrin"), Model: cmp.Or(p.Model, "4T-75"), Serial: p.Serial, InService: schedule.Point(p.InService)}
}

// addList signs a list of all records.
func (w *Told) addList(l *List) {
	w.t.Helper()
	m, y := w.machine(cmp.Or(l.Machine, "port")), w.yard(l.Yard)
	const afternoon = 16 * 3600
	made := &list.List{Format: list.Format, Issuer: record.Issuer{Name: y.Name, Kind: record.YardIssuer}, Until: quantity.Date(l.Until),
		For: l.For, IssuedAt: int64(l.Until)*86400 + afternoon}
	made.Machine.Make, made.Machine.Model, made.Machine.Serial = m.Make, m.Model, m.Serial
	for _, label := range l.Ends {
		end := w.Find(label)
		made.Ends = append(made.Ends, list.End{Number: end.Record.Number, ID: end.ID})
		made.Count += end.Record.Number
	}
	slices.SortFunc(made.Ends, func(a, b list.End) int { return bytes.Compare(a.ID[:], b.ID[:]) })
	payload := must[[]byte](w.t)(list.Encode(made))
	w.Files = append(w.Files, File{l.As, must[[]byte](w.t)(sign.Seal(sign.ListV1, payload, keyOf(w.t, y.Seed)))})
}
