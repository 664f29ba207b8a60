package enrol

import (
	"fmt"
	"strings"
	"unicode"

	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

const plateGone = "Where the plate is gone or cannot be read: what the papers say, or: not legible."

// plate asks for what stands on the name plate.
func (s *session) plate() {
	twin := s.twin()
	s.m.Make = s.ask(dialogue.Question{Key: "make", Text: "Make, as on the name plate", Offer: twin.Make, Read: s.text, Help: []string{plateGone}})
	s.confirm("make", noName(s.m.Make)...)
	s.m.Model = s.ask(dialogue.Question{Key: "model", Text: "Model, as on the name plate", Offer: s.twinModel(twin), Read: s.text, Help: []string{plateGone}})
	for i, m := range s.Machines {
		if s.like == nil && strings.EqualFold(m.Make, s.m.Make) && strings.EqualFold(m.Model, s.m.Model) {
			s.like = &s.Machines[i]
		}
	}
	s.serial()
	if s.m.DrivenBy != "" {
		return
	}
	power := ""
	if s.like != nil {
		power = figure(s.like.RatedPower)
	}
	s.m.RatedPower = dialogue.Value(jobsheet.LinePower, s.ask(dialogue.Question{
		Key: "power", Text: "Rated power, as 55 kW, 75 hp or 75 PS", Offer: offer(power), Dashed: "not stated", Read: dialogue.Reading(jobsheet.LinePower),
		Help: []string{"As on the plate, with its unit. hp is 745.7 W, PS is 735.5 W."},
	}))
}

// twin is a machine of the same kind in the same vessel; zero for none.
func (s *session) twin() jobsheet.Machine {
	for _, m := range s.aboard() {
		if m.Kind == s.m.Kind {
			return m
		}
	}
	return jobsheet.Machine{}
}

func (s *session) twinModel(twin jobsheet.Machine) string {
	if strings.EqualFold(twin.Make, s.m.Make) {
		return twin.Model
	}
	return ""
}

func (s *session) serial() {
	s.m.Serial = s.ask(dialogue.Question{
		Key: "serial", Text: "Serial number, as on the name plate", Read: s.text,
		Help: []string{"Every character as it stands there, noughts at its beginning too, as 0045120.", plateGone},
	})
	if s.m.Serial == "" {
		return
	}
	var odd []string
	for _, m := range s.Machines {
		is := fmt.Sprintf("of %s, %s %s", m.ID, m.Make, m.Model)
		switch same, probably := s.SameSerial(s.m.Serial, m.Serial); {
		case same:
			odd = append(odd, fmt.Sprintf("%s is the serial number %s, already.", m.Serial, is))
		case probably:
			odd = append(odd, fmt.Sprintf("But for O and 0, I and 1 or noughts before it this is the serial number %s: %s.", is, m.Serial))
		}
	}
	s.confirm("serial", odd...)
	if letters := lookAlikes(s.m.Serial); letters != "" {
		s.a.Say(letters)
	}
}

// lookAlikes mentions the letters of a number that a digit looks like; "" for none.
func lookAlikes(serial string) string {
	if !strings.ContainsFunc(serial, unicode.IsDigit) {
		return ""
	}
	upper := strings.ToUpper(serial)
	switch o, i := strings.Contains(upper, "O"), strings.Contains(upper, "I"); {
	case o && i:
		return "It has the letters O and I in it: if the plate has a nought or a one there, < goes back."
	case o:
		return "It has the letter O in it: if the plate has a nought there, < goes back."
	case i:
		return "It has the letter I in it: if the plate has a one there, < goes back."
	}
	return ""
}
