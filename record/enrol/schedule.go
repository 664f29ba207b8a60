package enrol

import (
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/schedule"
)

// Own is what makes a copy of a schedule the yard's own.
type Own struct {
	From  string // id of the schedule that is copied
	Title string
	Basis schedule.Basis // kind 0: not said yet
}

// OwnInput is what is asked about a copy: of what is stated already nothing is.
type OwnInput struct {
	Stated    Own
	Schedules []Schedule // there are to copy
	Yard      string     // its name, for the title
	Printable func(text string) error
}

// OwnScript asks for what is not stated.
func OwnScript(in OwnInput, own *Own) dialogue.Script {
	return func(a *dialogue.Asker) {
		s := &session{Input: Input{Schedules: in.Schedules, Printable: in.Printable}, a: a}
		made := in.Stated
		if made.From == "" {
			said := []string{"Schedules to begin from:"}
			for i, of := range in.Schedules {
				said = append(said, fmt.Sprintf("  %d  %s: %s", i+1, of.ID, before(of.Title)))
			}
			made.From = s.ask(dialogue.Question{Key: "from", Text: "Copied from, by number or id", Said: said, Read: s.readSchedule})
		}
		if made.Basis.Kind == 0 {
			made.Basis.Kind = basisOf(s.ask(dialogue.Question{
				Key: "basis", Text: "What it is taken from: m maker, c class, y yard, p common practice", Offer: "yard",
				Read: func(typed string) (string, error) { return bases.Read(strings.ReplaceAll(typed, " ", "-")) },
				Help: append(bases.Help(), "Say maker only where the intervals are the maker's own, and you put them in: a record by it says by the maker's schedule."),
			}))
		}
		s.sourceOf(&made.Basis)
		if made.Title == "" {
			for _, of := range in.Schedules {
				if of.ID == made.From {
					made.Title = s.ask(dialogue.Question{Key: "title", Text: "Title", Offer: OwnTitle(of.Title, in.Yard, made.Basis.Kind), Read: s.text})
				}
			}
		}
		*own = made
	}
}

// sourceOf asks for the document that a schedule is taken from, where one has to be
// named, or may be.
func (s *session) sourceOf(b *schedule.Basis) {
	wanted := NamesDocument(b.Kind)
	for _, part := range []struct {
		to              *string
		key, text, help string
		wanted          bool
	}{
		{&b.Document, "document", "The document's title", "As it stands on its cover: operator's handbook 4T-75.", wanted},
		{&b.Edition, "edition", "Its edition", "As 3, or 2024-05.", wanted},
		{&b.Page, "page", "Its page", "Where the intervals stand, as 41.", false},
	} {
		if *part.to != "" || !wanted && part.to != &b.Document && b.Document == "" {
			continue
		}
		q := dialogue.Question{Key: part.key, Text: part.text, Read: s.text, Help: []string{part.help}}
		if !part.wanted {
			q.Offer, q.Dashed = dialogue.Dash, "not stated"
		}
		*part.to = dialogue.Dashless(s.ask(q))
	}
}

// NamesDocument says whether a schedule of a basis has to name its document and
// edition.
func NamesDocument(kind schedule.BasisKind) bool {
	return kind == schedule.Maker || kind == schedule.Class
}

// OwnTitle is the likely title of a copy: without the words that say whose it was,
// and with the yard's name.
func OwnTitle(from, yard string, kind schedule.BasisKind) string {
	if kind == schedule.CommonPractice {
		return from
	}
	bare, _, _ := strings.Cut(before(from), ", common practice")
	if title := bare + ", " + yard; kind == schedule.Yard && record.CheckText(title, record.MaxText) == nil {
		return title
	}
	return bare
}

// before is a title without what stands in brackets at its end.
func before(title string) string {
	bare, _, _ := strings.Cut(title, " (")
	return bare
}

var bases = dialogue.Choices{
	{Letter: "m", Word: "maker", Means: "the maker's handbook or bulletin; document and edition are asked for"},
	{Letter: "c", Word: "class", Means: "a classification society's rules; document and edition are asked for"},
	{Letter: "y", Word: "yard", Means: "the yard's own experience"},
	{Letter: "p", Word: "common-practice", Means: "common practice, as it was"},
}

func basisOf(word string) schedule.BasisKind {
	for i, name := range schedule.BasisKinds() {
		if name == word {
			return schedule.BasisKind(i + 1)
		}
	}
	return 0
}
