package enrol

import (
	"errors"
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Input is what a session works from.
type Input struct {
	ID        string             // of the new machine; "" asks for it
	Machines  []jobsheet.Machine // of the yard, that can be read
	Schedules []Schedule         // that a machine may name, by id
	Today     quantity.Date
	Taken     func(id string) bool // whether there is a machine file of that id
	// Printable says whether a text can be printed.
	Printable func(text string) error
	// SameSerial says whether two serial numbers are the same, or the same but for
	// what is easily misread.
	SameSerial func(a, b string) (same, probably bool)
	Style      quantity.Style
}

// Schedule is one that there is, built in or the yard's own.
type Schedule struct {
	schedule.Schedule
	BuiltIn bool
}

// Script asks for one machine; what it has come to stands in machine after each
// answer. The last one's Source is left empty.
func Script(in Input, machine *jobsheet.Machine) dialogue.Script {
	return func(a *dialogue.Asker) {
		s := &session{Input: in, a: a}
		s.vessel()
		s.place()
		s.plate()
		s.upkeep()
		s.systems()
		s.earlier()
		*machine = s.m
	}
}

// session is one run of the script.
type session struct {
	Input
	a    *dialogue.Asker
	m    jobsheet.Machine
	kind kind              // of the usual ones; zero for another
	like *jobsheet.Machine // one of the same make and model; nil for none
	held schedule.Schedule // the one that was chosen
}

// ask asks, and takes the words for "nobody knows" where a dash is an answer.
func (s *session) ask(q dialogue.Question) string {
	if read := q.Read; q.Dashed != "" {
		q.Read = func(typed string) (string, error) {
			switch strings.ToLower(typed) {
			case "unknown", "not known", "none", strings.ToLower(q.Dashed):
				return dialogue.Dash, nil
			}
			kept, err := read(typed)
			if errors.Is(err, errNoText) {
				err = fmt.Errorf("%w, or - for none", err)
			}
			return kept, err
		}
	}
	return s.a.Ask(q)
}

// errNoText says that an answer to another question stands where a text is asked for.
var errNoText = errors.New("type the words themselves")

// text reads a text of a record's usual length that can be printed. No text is yes or no.
func (s *session) text(typed string) (string, error) {
	if _, err := dialogue.YesNo.Read(typed); err == nil {
		return "", fmt.Errorf("%s is no answer here: %w", dialogue.Quoted(typed), errNoText)
	}
	if err := record.CheckText(typed, record.MaxText); err != nil {
		return "", err
	}
	if err := s.Printable(typed); err != nil {
		return "", fmt.Errorf("%w: leave it out", err)
	}
	return typed, nil
}

// keeps is the only answer that goes on.
var keeps = dialogue.Choices{{Letter: "y", Word: "yes"}}

// confirm asks whether what is odd is right.
func (s *session) confirm(key string, odd ...string) {
	if len(odd) == 0 {
		return
	}
	s.a.Ask(dialogue.Question{
		Key: key + "/kept", Text: "Keep it as it is? y keeps it, < goes back to correct it", Said: odd,
		Read: func(typed string) (string, error) {
			word, err := keeps.Read(typed)
			if err != nil {
				err = fmt.Errorf("%s: type y to keep it, or < to correct it", dialogue.Quoted(typed))
			}
			return word, err
		},
		Help: []string{"Look at the plate or the papers once more. What is odd may be right, and is kept as it was typed."},
	})
}

// figures are what is typed at other questions and looks like no name.
var figures = []struct {
	is    string
	reads func(string) error
}{
	{"a date", reads(jobsheet.LineDate)},
	{"a bare figure", reads(quantity.ParseHours)},
	{"an amount", reads(jobsheet.LineHours)},
	{"an amount", reads(jobsheet.LineCapacity)},
	{"an amount", reads(jobsheet.LinePower)},
	{"an amount", reads(jobsheet.LineDensity)},
	{"an amount", reads(jobsheet.LineProtectTo)},
}

func reads[T any](parse func(string) (T, error)) func(string) error {
	return func(text string) error {
		_, err := parse(text)
		return err
	}
}

// noName says that a name is plainly something else; nothing for one that may be one.
func noName(name string) []string {
	for _, f := range figures {
		if f.reads(name) == nil {
			return []string{fmt.Sprintf("%s is %s, and a name is asked for.", dialogue.Quoted(name), f.is)}
		}
	}
	return nil
}

// without says what cannot be worked out where an answer is a dash.
func (s *session) without(text, then string) {
	if text == dialogue.Dash {
		s.a.Say(then)
	}
}

// offer is what is offered: the text, or the dash where there is none.
func offer(text string) string {
	if text == "" {
		return dialogue.Dash
	}
	return text
}

// figure is a quantity as it is typed; "" for one that is not stated.
func figure[T interface {
	~int64
	String() string
}](value T) string {
	if value == 0 {
		return ""
	}
	return value.String()
}
