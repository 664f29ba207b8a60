package recordtest

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// alphabet has letters of several scripts, a letter's accent, and what JSON, HTML
// and terminals treat apart: all of it allowed in a text.
var alphabet = []rune("aZ09 -_.,'\"\\<&>/é\u00a0ßЖω€\u0301\uff5e")

// Random is any valid record: every kind, every optional part there or not. Its
// lists are short, so that it always fits record.MaxBytes.
func Random(t *rapid.T) *record.Record {
	r := &record.Record{
		Format: record.Format, Renderer: uint(number(t, "renderer", 1, 1<<16)), Paper: word[record.Paper](t, record.PaperWords),
		PageHost: rapid.SampledFrom([]string{"", "verify.ellery-slip.example"}).Draw(t, "page host"),
		Kind:     word[record.Kind](t, record.KindWords),
		Machine: record.Machine{
			ID: id(t), Vessel: text(t, 0), Hull: text(t, 0), Kind: text(t, 1), Position: text(t, 0), Make: text(t, 1), Model: text(t, 1),
			Serial: text(t, 1), RatedPower: quantity.Power(number(t, "power", 0, int64(quantity.MaxPower))), DrivenBy: text(t, 0),
			InService: schedule.Point{Date: date(t), Hours: anyHours(t)},
		},
		Job: job(t),
		By:  record.By{Number: text(t, 0), Name: text(t, 0), Credential: text(t, 0)},
		Schedule: record.ScheduleRef{ID: id(t), Edition: uint(number(t, "edition", 1, 100_000)), Digest: digest(t),
			Basis: schedule.Basis{Kind: word[schedule.BasisKind](t, schedule.BasisKinds()), Document: text(t, 0), Edition: text(t, 0), Page: text(t, 0)}},
		OtherWork: list(t, otherWork), Fluids: list(t, fluid),
		ToppedUp: list(t, func(t *rapid.T) record.TopUp { return record.TopUp{System: id(t), Amount: *measured(t)} }),
		Waste: list(t, func(t *rapid.T) record.Waste {
			w := record.Waste{System: id(t), Amount: *measured(t)}
			if w.Held = text(t, 0); w.Held == "" {
				w.To, w.Receipt = text(t, 0), text(t, 0)
			}
			return w
		}),
		Parts: list(t, func(t *rapid.T) record.Part {
			return record.Part{Item: text(t, 1), Number: text(t, 0), Quantity: uint(number(t, "quantity", 1, 10_000)), SuppliedBy: word[record.Supplier](t, record.SupplierWords), Serial: text(t, 0)}
		}),
		LeakCheck: maybe(t, func(t *rapid.T) record.LeakCheck {
			return record.LeakCheck{Result: word[record.LeakResult](t, record.LeakWords), After: maybe(t, minutes), Where: text(t, 0)}
		}),
		Findings: list(t, finding),
		Notes:    strings.Join([]string{text(t, 1), text(t, 1)}, "\n\n"),
		Files:    list(t, func(t *rapid.T) record.File { return record.File{Name: id(t) + ".jpg", SHA256: digest(t)} }),
		Issuer:   record.Issuer{Name: text(t, 1), Kind: word[record.IssuerKind](t, record.IssuerWords), Contact: text(t, 0), Address: text(t, 0)},
		Number:   uint32(number(t, "number", 1, 1_000_000)),
		IssuedAt: number(t, "issued at", 0, int64(quantity.MaxDate)*86_400),
	}
	for range rapid.IntRange(0, 3).Draw(t, "tasks") {
		r.Tasks = append(r.Tasks, task(t))
	}
	if r.Kind != record.Service {
		r.Subject = &record.Subject{Record: record.ID(digest(t)), Why: text(t, 1)}
	}
	if r.Number > 1 {
		r.Previous = &record.Previous{Record: record.ID(digest(t)), Date: date(t), Hours: anyHours(t)}
	}
	unlike(r)
	return r
}

// unlike gives every entry that must stand once an id of its own.
func unlike(r *record.Record) {
	tasks, fluids, topUps := map[string]bool{}, map[string]bool{}, map[string]bool{}
	for i := range r.Tasks {
		r.Tasks[i].ID = fresh(tasks, r.Tasks[i].ID, i)
	}
	for i := range r.Fluids {
		r.Fluids[i].System = fresh(fluids, r.Fluids[i].System, i)
	}
	for i := range r.ToppedUp {
		r.ToppedUp[i].System = fresh(topUps, r.ToppedUp[i].System, i)
	}
}

func fresh(seen map[string]bool, id string, i int) string {
	if seen[id] {
		id = fmt.Sprintf("%d-again", i)
	}
	seen[id] = true
	return id
}

func number(t *rapid.T, label string, low, high int64) int64 {
	return rapid.Int64Range(low, high).Draw(t, label)
}

func word[T ~uint8 | ~uint16](t *rapid.T, words []string) T {
	return T(rapid.IntRange(1, len(words)).Draw(t, "word"))
}

func maybe[T any](t *rapid.T, make func(*rapid.T) T) *T {
	if !rapid.Bool().Draw(t, "there") {
		return nil
	}
	return new(make(t))
}

func list[T any](t *rapid.T, make func(*rapid.T) T) []T {
	return rapid.SliceOfN(rapid.Custom(make), 0, 3).Draw(t, "list")
}

func text(t *rapid.T, least int) string {
	s := strings.TrimSpace(rapid.StringOfN(rapid.SampledFrom(alphabet), 0, 12, -1).Draw(t, "text"))
	if s == "" && least > 0 {
		return "x"
	}
	return s
}

func id(t *rapid.T) string { return rapid.StringMatching(`[a-z0-9][a-z0-9-]{0,39}`).Draw(t, "id") }

func date(t *rapid.T) quantity.Date {
	return quantity.Date(number(t, "date", int64(quantity.MinDate), int64(quantity.MaxDate)))
}

func anyHours(t *rapid.T) quantity.Hours {
	return quantity.Hours(number(t, "hours", 0, int64(quantity.MaxHours)))
}

func minutes(t *rapid.T) quantity.Minutes {
	return quantity.Minutes(number(t, "minutes", 0, int64(quantity.MaxMinutes)))
}

func digest(t *rapid.T) (d record.Digest) {
	copy(d[:], rapid.SliceOfN(rapid.Byte(), len(d), len(d)).Draw(t, "digest"))
	return d
}
