package closeout

import (
	"errors"
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

// lookAgain asks when, of what is to be watched.
func (s *session) lookAgain(key string, t *record.Task) {
	if t.Result != record.Watch {
		return
	}
	text := s.ask(key, dialogue.Question{
		Key: key + "/look-again", Text: "When to look again, and why, as 900 h, light glaze", Dashed: "not stated",
		Help: []string{"Hours of the meter, a date, or both: 900 h; 2026-10-01; 900 h or 2026-10-01. Behind a comma what was seen."},
		Read: s.line(s.ahead),
	})
	if text == "" || text == dialogue.Dash {
		return
	}
	look, why, err := jobsheet.LineLookAgain(text)
	if err != nil {
		return
	}
	t.LookAgain = &look
	if why != "" {
		t.Answer = &record.Answer{Why: why}
	}
}

// ahead reads when to look again, which is not before the job.
func (s *session) ahead(typed string) (string, error) {
	look, _, err := jobsheet.LineLookAgain(typed)
	switch {
	case err != nil && !strings.ContainsAny(typed, "0123456789"):
		return "", errors.New("when comes first, as 900 h, light glaze; or -, where no time was set")
	case err != nil:
		return "", err
	case look.Hours != nil && s.job.Meter.Reading != nil && *look.Hours <= *s.job.Meter.Reading:
		return "", fmt.Errorf("%v h is not ahead: the meter reads %v", *look.Hours, *s.job.Meter.Reading)
	case look.Date != nil && *look.Date <= s.job.Date:
		return "", fmt.Errorf("%v is not ahead: the job is of %v", *look.Date, s.job.Date)
	}
	return typed, nil
}

// answer asks why something waits, what was advised, and what the owner said.
func (s *session) answer(key, path, what string, result record.Result, known *record.Answer) *record.Answer {
	if result != record.Defect && result != record.Deferred {
		return known
	}
	asked := "Why it was put off"
	if result == record.Defect {
		asked = "What was found, and why it was left"
	}
	why := s.ask(path, dialogue.Question{
		Key: key + "/why", Text: asked, Read: s.reasonText,
		Help: []string{"As part on order. It is printed on the report."},
	})
	if why == "" {
		return nil
	}
	return s.advice(key, path, record.Answer{Why: why})
}

// advice asks for the yard's advice and the owner's word on it.
func (s *session) advice(key, path string, answer record.Answer) *record.Answer {
	text := s.ask(path, dialogue.Question{
		Key: key + "/answer", Dashed: "neither",
		Text: "Advised (b before use, n next service, m monitor) and the owner (a agreed, d declined, w awaiting), as na",
		Help: []string{
			"b  to be seen to before the engine is used; n  at the next service; m  to be kept an eye on.",
			"a  the owner agreed to wait; d  declined the work; w  has not answered yet.",
			"The owner counts as told on " + s.job.Date.String() + "; another date stands behind: n a 2026-05-03.",
		},
		Read: s.told,
	})
	if said := dialogue.Parsed(twoLetters, text); said != nil {
		why := answer.Why
		answer = *said
		answer.Why = why
		if answer.Told == nil && answer.Owner != 0 {
			answer.Told = new(s.job.Date)
		}
	}
	return &answer
}

// told reads the advice and the owner's word, of a day that has been.
func (s *session) told(typed string) (string, error) {
	answer, err := twoLetters(typed)
	switch {
	case err != nil:
		return "", fmt.Errorf("%s: type b, n or m, then a, d or w, as na; a date of telling behind, as n a %v", dialogue.Quoted(typed), s.job.Date)
	case answer.Told != nil && *answer.Told > s.Today:
		return "", fmt.Errorf("told on %v: today is %v", *answer.Told, s.Today)
	}
	return typed, nil
}

// twoLetters reads an answer of which the letters may stand together: na.
func twoLetters(text string) (record.Answer, error) {
	if len(text) == 2 {
		text = text[:1] + " " + text[1:]
	}
	return jobsheet.LineAnswer(spokenAnswer.Replace(strings.ToLower(text)))
}

// spokenAnswer makes what a person says of an answer what a line has.
var spokenAnswer = strings.NewReplacer("next service", "next-service", "before use", "before-use", "owner ", "", "the ", "")
