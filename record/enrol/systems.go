package enrol

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/dialogue"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// shape is what makes sense to ask of a system.
type shape uint8

const (
	plain   shape = iota // it holds so much
	marked               // it has an upper and a lower mark
	coolant              // it freezes
)

// systems asks for those that the schedule needs something of, and for others.
func (s *session) systems() {
	if s.a.Waiting() {
		return
	}
	s.a.Say("What it holds, by the plate or the handbook, with its unit: 10.0 L, 2.6 US gal. - or unknown where nobody knows.")
	for _, e := range jobsheet.EvidenceFor(s.held.Tasks) {
		of := plain
		switch {
		case isCoolant(e.System):
			of = coolant
		case e.Level:
			of = marked
		}
		s.system(e.System, of)
	}
	s.further()
}

func isCoolant(name string) bool { return strings.Contains(name, "coolant") }

// further asks for systems that no task of the schedule speaks of.
func (s *session) further() {
	for n := 1; len(s.m.Systems) < record.MaxFluids; n++ {
		key := "further/" + strconv.Itoa(n)
		name := s.ask(dialogue.Question{
			Key: key, Text: "A further system, as steering-oil", Offer: offer(s.nextSystem()), Dashed: "none",
			Help: []string{"One that job sheets are to speak of, though no task of the schedule does. Small letters, digits and hyphens."},
			Read: func(typed string) (string, error) {
				if err := jobsheet.CheckID(typed); err != nil {
					return "", err
				}
				if _, there := s.m.System(typed); there {
					return "", fmt.Errorf("%s is there already: type another, or -", typed)
				}
				return typed, nil
			},
		})
		if dialogue.Dashless(name) == "" {
			return
		}
		of := coolant
		if !isCoolant(name) {
			of = plain
			if s.a.Ask(dialogue.Question{Key: key + "/marks", Text: "Has it an upper and a lower mark? y or n", Offer: s.marksOf(name), Read: dialogue.YesNo.Read}) == "yes" {
				of = marked
			}
		}
		s.system(name, of)
	}
}

// marksOf is whether a like machine's system of the name has marks.
func (s *session) marksOf(name string) string {
	if s.like != nil {
		if sys, there := s.like.System(name); there && sys.AtUpper > 0 {
			return "yes"
		}
	}
	return "no"
}

// nextSystem is one that is likely there too: of the like machine, or a coolant where
// its strength is measured; "" for none.
func (s *session) nextSystem() string {
	var likely []string
	if s.like != nil {
		for _, sys := range s.like.Systems {
			likely = append(likely, sys.Name)
		}
	}
	for _, t := range s.held.Tasks {
		if t.Needs.Reading == "freezing_point" {
			likely = append(likely, "coolant")
		}
	}
	for _, name := range likely {
		if _, there := s.m.System(name); !there {
			return name
		}
	}
	return ""
}

// system asks for what is known of one system.
func (s *session) system(name string, of shape) {
	var like jobsheet.System // the same one of a machine of the same make and model
	if s.like != nil {
		like, _ = s.like.System(name)
	}
	sys := jobsheet.System{Name: name}
	switch of {
	case coolant:
		s.holds(&sys, like)
		s.protection(&sys, like)
	case marked:
		s.marks(&sys, like)
		s.oil(&sys, like)
		s.drain(&sys, like)
	default:
		s.holds(&sys, like)
		s.oil(&sys, like)
	}
	if !s.a.Waiting() {
		s.m.Systems = append(s.m.Systems, sys)
	}
}

// spoken is a name as it is spoken: "Engine oil".
func spoken(name string) string {
	text := strings.ReplaceAll(name, "-", " ")
	return strings.ToUpper(text[:min(1, len(text))]) + text[min(1, len(text)):]
}

func systemKey(sys *jobsheet.System, what string) string { return "system/" + sys.Name + "/" + what }

// volume asks for a volume that may be unknown; less is a volume that it has to stay
// below, 0 for none.
func (s *session) volume(sys *jobsheet.System, what, text string, like, less quantity.Volume, help, then string) quantity.Volume {
	typed := s.ask(dialogue.Question{
		Key: systemKey(sys, what), Text: spoken(sys.Name) + ": " + text, Offer: figure(like), Dashed: "unknown", Help: []string{help},
		Read: func(typed string) (string, error) {
			v, err := jobsheet.LineCapacity(typed)
			if err == nil && less > 0 && v >= less {
				err = fmt.Errorf("%s is no less than all that is in at the upper mark, %s", s.Style.Volume(v), s.Style.Volume(less))
			}
			return typed, err
		},
	})
	s.without(typed, then)
	return dialogue.Value(jobsheet.LineCapacity, typed)
}

func (s *session) marks(sys *jobsheet.System, like jobsheet.System) {
	sys.AtUpper = s.volume(sys, "at-upper", "in at the upper mark, new filter included, as 10.0 L", like.AtUpper, 0,
		"What the handbook gives for a change with filter. What is drained is less, since some stays in.",
		"Then what a job takes is not worked out, and no level is held to what was filled in.")
	sys.BetweenMarks = s.volume(sys, "between-marks", "between the two marks, as 1.6 L", like.BetweenMarks, sys.AtUpper,
		"From the lower mark of the dipstick or glass to the upper. Half of it takes the level from the lower mark half-way up.",
		"Then a level is not turned into litres.")
	if !slices.ContainsFunc(s.taskIDs(), func(task string) bool { return check.IsFilterOf(task, sys.Name) }) {
		return
	}
	sys.FilterHolds = s.volume(sys, "filter-holds", "the filter holds, as 0.6 L", like.FilterHolds, sys.AtUpper,
		"What an old filter takes away with it when it is thrown away full.",
		"Then what an old filter takes away with it is not reckoned with.")
}

func (s *session) holds(sys *jobsheet.System, like jobsheet.System) {
	sys.Holds = s.volume(sys, "holds", "holds, as 11.5 L", like.Holds, 0,
		"All that is in it when it is full.",
		"Then what a job takes is not worked out.")
}

// oil asks what suits and how heavy it is.
func (s *session) oil(sys *jobsheet.System, like jobsheet.System) {
	text := s.ask(dialogue.Question{
		Key: systemKey(sys, "suits"), Text: spoken(sys.Name) + ": grades and specifications that suit, as 15W-40, API CI-4", Dashed: "not stated",
		Offer: strings.Join(slices.Concat(like.Viscosity, like.Meets), ", "),
		Help:  []string{"From the handbook, with commas between. Of several grades, and of several specifications, any one is enough: 15W-40, 10W-40, API CI-4, ACEA E7."},
		Read:  s.readSuits,
	})
	sys.Viscosity, sys.Meets = suits(text)
	if parted(text) != text {
		s.a.Say(fmt.Sprintf("Taken as the grade %s, and the specification %s.", strings.Join(sys.Viscosity, ", "), strings.Join(sys.Meets, ", ")))
	}
	s.without(text, "Then an oil that is filled in is held to nothing.")
	density := s.ask(dialogue.Question{
		Key: systemKey(sys, "density"), Text: spoken(sys.Name) + ": density at 15 degC, as 880 kg/m3", Offer: offer(figure(like.Density)), Dashed: "880 kg/m3 is taken",
		Help: []string{"From the oil's data sheet. It turns kilograms into litres, and hot litres into cool ones."},
		Read: dialogue.Reading(jobsheet.LineDensity),
	})
	sys.Density = dialogue.Value(jobsheet.LineDensity, density)
}

// suits are the grades and the specifications of an answer.
func suits(text string) (grades, marks []string) {
	if dialogue.Dashless(text) == "" {
		return nil, nil
	}
	marks, grades = jobsheet.MarksAndGrades(parted(text))
	return grades, marks
}

// parted is a list of grades and specifications with the commas that were left out
// round a multigrade: "15w40 CI4" is "15w40, CI4".
func parted(list string) string {
	var parts []string
	for part := range strings.SplitSeq(list, ",") {
		words := strings.Fields(part)
		grade := slices.IndexFunc(words, func(word string) bool {
			_, _, _, is := fluid.KinematicRange(word)
			return is && strings.ContainsAny(word, "Ww")
		})
		if grade < 0 || len(words) == 1 {
			parts = append(parts, strings.TrimSpace(part))
			continue
		}
		before := words[:grade]
		if grade > 0 && strings.EqualFold(words[grade-1], "SAE") {
			before = words[:grade-1]
			words[grade] = words[grade-1] + " " + words[grade]
		}
		for _, piece := range [][]string{before, {words[grade]}, words[grade+1:]} {
			if len(piece) > 0 {
				parts = append(parts, strings.Join(piece, " "))
			}
		}
	}
	return strings.Join(parts, ", ")
}

func (s *session) readSuits(typed string) (string, error) {
	grades, marks := suits(typed)
	for _, list := range [][]string{grades, marks} {
		if len(list) > record.MaxMeets {
			return "", fmt.Errorf("%d of a kind, at most %d fit: take some out", len(list), record.MaxMeets)
		}
		for i, word := range list {
			if slices.Contains(list[:i], word) {
				return "", fmt.Errorf("%s is typed twice: keep one", dialogue.Quoted(word))
			}
			if _, err := s.text(word); err != nil {
				return "", err
			}
		}
	}
	if len(grades)+len(marks) == 0 {
		return "", errors.New("nothing between the commas: type grades and specifications, as 15W-40, API CI-4, or -")
	}
	return typed, nil
}

var drains = dialogue.Choices{
	{Letter: "e", Word: "extractor", Means: "it is drawn out with the vacuum extractor, at the dipstick's tube"},
	{Letter: "p", Word: "plug", Means: "it runs out at the drain plug"},
}

func (s *session) drain(sys *jobsheet.System, like jobsheet.System) {
	sys.Drain = dialogue.Dashless(s.ask(dialogue.Question{
		Key: systemKey(sys, "drain"), Text: spoken(sys.Name) + ": taken out by e extractor or p plug", Offer: offer(like.Drain), Dashed: "now this, now that",
		Help: append(drains.Help(), "For the worksheet, where it is always the one."), Read: drains.Read,
	}))
}

var glycols = dialogue.Choices{
	{Letter: "e", Word: "ethylene", Means: "the usual one"},
	{Letter: "p", Word: "propylene", Means: "the less poisonous one"},
}

// protection asks what a coolant is made of and protects to.
func (s *session) protection(sys *jobsheet.System, like jobsheet.System) {
	sys.Glycol = dialogue.Dashless(s.ask(dialogue.Question{
		Key: systemKey(sys, "glycol"), Text: spoken(sys.Name) + ": glycol, e ethylene or p propylene", Offer: like.Glycol, Dashed: "not known",
		Help: append(glycols.Help(), "It stands on the canister or in the handbook. The two are not told apart by looking."), Read: glycols.Read,
	}))
	cold := ""
	if like.ProtectTo != nil {
		cold = like.ProtectTo.String()
	}
	text := s.ask(dialogue.Question{
		Key: systemKey(sys, "protect-to"), Text: spoken(sys.Name) + ": is to protect down to, as -25 C", Offer: cold, Dashed: "not stated",
		Help: []string{"The coldest that the vessel is laid up in, with some to spare. A measured freezing point is held to it."},
		Read: dialogue.Reading(jobsheet.LineProtectTo),
	})
	sys.ProtectTo = dialogue.Parsed(jobsheet.LineProtectTo, text)
	switch {
	case text == "":
	case sys.Glycol == "" && sys.ProtectTo == nil:
		s.a.Say("Then it is not known to be a coolant, and no strength is worked out.")
	case sys.Glycol == "":
		s.a.Say("Then a freezing point is not turned into a share of glycol.")
	case sys.ProtectTo == nil:
		s.a.Say("Then a measured freezing point is held to nothing.")
	}
}
