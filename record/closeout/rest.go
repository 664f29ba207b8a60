package closeout

import (
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
			Read: s.line(dialogue.Reading(parse)),
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
		Key: "leak-check", Text: "Looked for leaks with the engine running: none seen in 10 min, or seen at drain plug", Dashed: "not looked",
		Said: []string{"Moving parts, hot oil, exhaust gas: keep clear, ventilate, and go by the maker's handbook."},
		Help: []string{"10 alone stands for none seen in 10 minutes. Where one was seen: seen at drain plug after 5 min."},
		Read: s.line(dialogue.Reading(jobsheet.LineLeakCheck)),
	})
	s.job.LeakCheck = dialogue.Parsed(jobsheet.LineLeakCheck, text)
	if text != "" {
		s.look("leak_check")
	}
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
