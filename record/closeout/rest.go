package closeout

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

// parts asks for the number of each part that the done tasks call for, and for others
// where other work was done.
func (s *session) parts() {
	for _, task := range s.done {
		item := task.Needs.Part
		if item == "" || slices.ContainsFunc(s.job.Parts, func(p record.Part) bool { return strings.EqualFold(p.Item, item) }) {
			continue
		}
		parse := func(text string) (record.Part, error) { return jobsheet.LinePart(item, text) }
		text := s.ask("parts", dialogue.Question{
			Key: "part/" + task.ID, Text: spoken(item) + ": part number, as CR-2214", Offer: s.lastPart(item), Dashed: "no number",
			Help: []string{"Several: 2 x CR-2214. Its own serial number, and who supplied it: CR-2214, serial 0000714, by customer (yard, customer or warranty; the yard where left out)."},
			Read: s.partRead(parse),
		})
		if text == "" {
			return
		}
		if p, err := parse(text); err == nil { // a dash too: a part without a number
			s.job.Parts = append(s.job.Parts, p)
		}
	}
	if len(s.job.OtherWork) > 0 {
		s.otherParts()
	}
}

// partRead reads a part, whose number is no amount.
func (s *session) partRead(parse func(string) (record.Part, error)) func(string) (string, error) {
	return s.line(func(typed string) (string, error) {
		p, err := parse(typed)
		if _, isAmount := jobsheet.LineAmount(p.Number); err == nil && isAmount == nil && p.Number != "" {
			return "", fmt.Errorf("%s is an amount: the part's number is wanted, or -", dialogue.Quoted(typed))
		}
		return typed, err
	})
}

func (s *session) otherParts() {
	parse := func(text string) (record.Part, error) { return jobsheet.LinePart("", text) }
	for n := 1; ; n++ {
		text := s.ask("parts", dialogue.Question{
			Key: "other-part/" + strconv.Itoa(n), Text: "Other parts fitted, as hose clamp: CR-0301", Offer: dialogue.Dash, Dashed: "none",
			Help: []string{"What it is, a colon, and its number, one part at a time: hose clamp: 2 x CR-0301, by customer."},
			Read: s.line(dialogue.Reading(parse)),
		})
		p := dialogue.Parsed(parse, text)
		if p == nil {
			return
		}
		s.job.Parts = append(s.job.Parts, *p)
	}
}

// lastPart is what was fitted of an item on this visit or by the last record, as it is
// typed; "" where it is not known.
func (s *session) lastPart(item string) string {
	lists := [][]record.Part{s.Visit.Parts}
	for _, e := range slices.Backward(s.Log.Own) {
		lists = append(lists, e.Record.Parts)
	}
	for _, parts := range lists {
		for _, p := range parts {
			if strings.EqualFold(p.Item, item) && p.Number != "" {
				return jobsheet.PartLine(record.Part{Item: item, Number: p.Number, Quantity: p.Quantity, SuppliedBy: record.ByYard})
			}
		}
	}
	return ""
}

// leakCheck asks for one where a task wants one.
func (s *session) leakCheck() {
	wants := false
	for _, task := range s.done {
		wants = wants || task.WantsLeakCheck()
	}
	if !wants {
		return
	}
	text := s.ask("leak_check", dialogue.Question{
		Key: "leak-check", Text: "Leaks, looked for with the engine running: n none seen, and minutes, as n 10; or s seen, and where", Dashed: "not looked",
		Said: s.Words.Cautions,
		Help: []string{"n 10: none seen in 10 minutes running. s drain plug after 5 min: one seen at the drain plug."},
		Read: s.line(dialogue.Reading(leaks)),
	})
	s.job.LeakCheck = dialogue.Parsed(leaks, text)
	if text != "" {
		s.look("leak_check")
	}
}

// leaks reads what was seen, which has to be said: minutes alone say that somebody
// looked, and not what he saw.
func leaks(text string) (record.LeakCheck, error) {
	word, rest, _ := strings.Cut(text, " ")
	rest = strings.TrimSpace(rest)
	switch strings.ToLower(word) {
	case "n", "none":
		rest = strings.TrimPrefix(strings.TrimPrefix(rest, "seen"), " ")
		for _, in := range []string{"after ", "in "} {
			rest = strings.TrimPrefix(rest, in)
		}
		if rest == "" {
			return jobsheet.LineLeakCheck("none seen")
		}
		if strings.Trim(rest, "0123456789") == "" {
			rest += " min"
		}
		return jobsheet.LineLeakCheck("none seen after " + rest)
	case "s", "seen":
		return jobsheet.LineLeakCheck(strings.TrimSpace("seen at " + strings.TrimPrefix(rest, "at ")))
	}
	return record.LeakCheck{}, errors.New("say what was seen: n 10 for none seen in 10 min, s drain plug for a leak at the drain plug; - where nobody looked")
}

func (s *session) notes() {
	text := s.ask("notes", dialogue.Question{
		Key: "notes", Text: "Notes", Offer: dialogue.Dash, Dashed: "none",
		Said: []string{"Notes are signed, travel in the code on the report and cannot be taken back: no owner's name or address."},
		Help: []string{"What the next reader should know, in a line. More lines can be written into the job sheet before it is signed."},
		Read: func(typed string) (string, error) { return s.text(typed, record.MaxNotes) },
	})
	s.job.Notes = dialogue.Dashless(text)
	if text != "" {
		s.look()
	}
}
