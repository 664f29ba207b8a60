package closeout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// visit asks when it was, what the meter read, and who was there.
func (s *session) visit() {
	s.date()
	s.meter()
	s.reason()
	s.jobNumber()
	s.placeAndTechnician()
}

func (s *session) date() {
	offer := s.Today
	if s.Visit.Date != 0 {
		offer = s.Visit.Date
	}
	text := s.ask("date", dialogue.Question{
		Key: "date", Text: "Date of the work", Offer: offer.String(), Read: s.readDate,
		Help: []string{"The day on which the work was done, year first, as " + s.Today.String() + "; today and yesterday will do."},
	})
	s.job.Date = dialogue.Value(quantity.ParseDate, text)
	if text == "" {
		return
	}
	s.look("date")
}

// changed is what is typed at the meter's question for another meter.
const changed = "changed"

func (s *session) meter() {
	text := s.ask("hours", dialogue.Question{
		Key: "hours", Text: "Hour meter reads", Said: s.meterSaid(),
		Help: []string{
			"As it stands on the meter, with a point, as 812.6.",
			"Where another meter was fitted since the last record, type " + changed + ".",
			"Where it has stopped, or there is none: stopped, 810 by engine log; or: none, 810 by engine log. The hours are in total then, over all meters.",
		},
		Read: func(typed string) (string, error) {
			if strings.EqualFold(typed, changed) {
				return changed, nil
			}
			_, _, err := jobsheet.LineMeter(typed)
			return typed, err
		},
	})
	if text == changed {
		s.meterChange()
		text = s.ask("hours", dialogue.Question{
			Key: "hours/new", Text: "The meter that is fitted now reads",
			Help: []string{"As it stands on the meter now fitted, as 34.2."},
			Read: func(typed string) (string, error) { _, _, err := jobsheet.LineMeter(typed); return typed, err },
		})
	}
	if text == "" {
		return
	}
	change := s.job.Meter.Change
	s.job.Meter, s.job.Estimate, _ = jobsheet.LineMeter(text)
	s.job.Meter.Change = change
	s.look("date", "hours", "meter_change", "severe_duty")
	s.makePlan()
}

func (s *session) meterChange() {
	text := s.ask("meter_change", dialogue.Question{
		Key: "meter-change", Text: "The old meter's last reading, the new one's first, and why, as 1482.3 to 12.0, glass broken",
		Help: []string{"The reading at which the old meter came off, or unknown; that at which the new one began; and the reason."},
		Read: func(typed string) (string, error) {
			change, err := jobsheet.LineMeterChange(typed)
			if err == nil {
				err = s.Printable(change.Why)
			}
			return typed, err
		},
	})
	s.job.Meter.Change = dialogue.Parsed(jobsheet.LineMeterChange, text)
}

// meterSaid says what was read last and about what is expected, in whole hours.
func (s *session) meterSaid() []string {
	if s.a.Waiting() {
		return nil
	}
	made, err := s.Plan(s.job.Date, nil)
	if err != nil {
		return nil
	}
	style := s.Words.Style
	h := made.Hours
	said := fmt.Sprintf("Last known: %s h on %s.", style.Hours(h.Last.Hours), style.Date(h.Last.Date))
	if h.Offset != 0 {
		said = fmt.Sprintf("Last known: %s h in total on %s; the meter reads %s h less.", style.Hours(h.Last.Hours), style.Date(h.Last.Date), style.Hours(h.Offset))
	}
	if s.Machine.DrivenBy != "" {
		said = "The hours are those of " + s.Machine.DrivenBy + ". " + said
	}
	return []string{said}
}

// makePlan works out what is due at the hours in total that the answers come to, or by
// the use of the machine where that cannot be.
func (s *session) makePlan() {
	if s.a.Waiting() {
		return
	}
	asRead := s.result.Draft.Job.Hours - s.Log.Offset(s.job.Date) // on the meter that ran until now
	made, err := s.Plan(s.job.Date, &asRead)
	if err != nil { // what the machine file states as done earlier speaks against it, which the check leaves open
		if s.job.Meter.Change == nil && s.job.Meter.State == record.Running {
			said, _, _ := strings.Cut(err.Error(), ": look at")
			s.a.Say(capital(said) + ". Look at the meter again: < goes back. Where another was fitted, type " + changed + " there.")
		}
		if made, err = s.Plan(s.job.Date, nil); err != nil {
			return
		}
	}
	s.made = made
}

func (s *session) reason() {
	offer := record.Scheduled
	if s.Visit.Reason != 0 {
		offer = s.Visit.Reason
	}
	text := s.ask("reason", dialogue.Question{
		Key: "reason", Text: "Why the job was done", Offer: offer.String(), Read: readReason,
		Help: []string{"One of: " + strings.Join(record.ReasonWords, ", ") + ". The first letters will do.",
			"On a scheduled job every task that is due is to be spoken of."},
	})
	if text != "" {
		s.job.Reason = reasonOf(text)
	}
}

func (s *session) jobNumber() {
	text := s.ask("job_number", dialogue.Question{
		Key: "job-number", Text: "Job number", Offer: dialogue.Dash, Dashed: "none", Read: s.shortText,
		Help: []string{"The yard's own, as J-2217."},
	})
	s.job.Number = dialogue.Dashless(text)
	if text != "" {
		s.look("job_number")
	}
}

func (s *session) placeAndTechnician() {
	place, by := s.Visit.Place, s.Visit.By
	for _, e := range slices.Backward(s.Log.Own) {
		place = cmp.Or(place, e.Record.Job.Place)
		if by == (record.By{}) {
			by = e.Record.By
		}
	}
	s.job.Place = dialogue.Dashless(s.ask("place", dialogue.Question{
		Key: "place", Text: "Place", Offer: cmp.Or(place, dialogue.Dash), Dashed: "not stated", Read: s.named,
		Help: []string{"Where the work was done, as Port Ellery, east slip."},
	}))
	text := s.ask("technician", dialogue.Question{
		Key: "technician", Text: "Technician's number, and credential after a comma", Offer: cmp.Or(jobsheet.ByLine(by), dialogue.Dash), Dashed: "not stated",
		Help: []string{"As 118, Ellery Slip card. A name may be added as a part of its own: name Pat Ellery. It is printed on the report and cannot be taken back."},
		Read: s.line(dialogue.Reading(jobsheet.LineBy)),
	})
	s.job.By = dialogue.Value(jobsheet.LineBy, text)
}

// line is a Read that also holds what was typed to what can be printed.
func (s *session) line(read func(string) (string, error)) func(string) (string, error) {
	return func(typed string) (string, error) {
		kept, err := read(typed)
		if err != nil {
			return kept, err
		}
		if err := s.Printable(typed); err != nil {
			return "", fmt.Errorf("%w: leave it out", err)
		}
		return kept, nil
	}
}
