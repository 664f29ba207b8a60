package enrol

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hourseal/record/check"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
)

// kind is what a machine usually is.
type kind struct {
	letter, word string
	name         string // what it is called within an id; "" where its position is enough
	schedule     string // the built-in one
	driven       bool   // has no meter of its own
}

var kinds = []kind{
	{letter: "p", word: "propulsion diesel", name: "engine", schedule: "diesel-inboard"},
	{letter: "g", word: "diesel generator", name: "generator", schedule: "diesel-generator"},
	{letter: "r", word: "reduction gear", name: "gearbox", schedule: "reduction-gear", driven: true},
	{letter: "s", word: "sail drive", name: "sail-drive", schedule: "sail-drive", driven: true},
	{letter: "o", word: "petrol outboard", name: "outboard", schedule: "petrol-outboard"},
}

// vessel asks which vessel it is in.
func (s *session) vessel() {
	names := s.vesselNames()
	q := dialogue.Question{
		Key: "vessel", Text: "Vessel's name", Dashed: "no vessel",
		Help: []string{"As it stands on her stern. For an engine that is in no vessel: -.", "No owner's name or address is asked for: a record is about a machine."},
		Read: func(typed string) (string, error) { return s.oneOf(names, typed) },
	}
	switch {
	case len(names) == 1:
		q.Offer = names[0]
	case len(names) > 1:
		q.Said = numbered("Vessels of the yard:", names)
		q.Text = "Vessel, by number or name"
	}
	s.m.Vessel.Name = dialogue.Dashless(s.ask(q))
	if s.a.Waiting() || s.m.Vessel.Name == "" {
		return
	}
	if !slices.Contains(names, s.m.Vessel.Name) {
		s.confirm("vessel", noName(s.m.Vessel.Name)...)
	}
	known := s.sister()
	s.hull(known.Vessel.Hull)
	s.m.Vessel.Home = dialogue.Dashless(s.ask(dialogue.Question{
		Key: "home", Text: "Home port", Offer: offer(known.Vessel.Home), Dashed: "not stated", Read: s.text,
	}))
	s.confirm("home", noName(s.m.Vessel.Home)...)
}

// vesselNames are those of the yard's machines, in the order in which they stand.
func (s *session) vesselNames() []string {
	var names []string
	for _, m := range s.Machines {
		if m.Vessel.Name != "" && !slices.Contains(names, m.Vessel.Name) {
			names = append(names, m.Vessel.Name)
		}
	}
	return names
}

// oneOf is one of some names, in their spelling, by name or number; or a new one.
func (s *session) oneOf(names []string, typed string) (string, error) {
	for _, name := range names {
		if strings.EqualFold(name, typed) {
			return name, nil
		}
	}
	if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(names) {
		return names[n-1], nil
	}
	return s.text(typed)
}

// mostListed is how many of a list are shown.
const mostListed = 12

func numbered(head string, names []string) []string {
	lines := []string{head}
	for i, name := range names[:min(len(names), mostListed)] {
		lines = append(lines, fmt.Sprintf("  %d  %s", i+1, name))
	}
	if more := len(names) - mostListed; more > 0 {
		lines = append(lines, fmt.Sprintf("  and %d more", more))
	}
	return lines
}

// aboard are the yard's machines in the same vessel.
func (s *session) aboard() []jobsheet.Machine {
	var list []jobsheet.Machine
	for _, m := range s.Machines {
		if m.Vessel.Name == s.m.Vessel.Name && m.Vessel.Name != "" {
			list = append(list, m)
		}
	}
	return list
}

// sister is a machine of the same vessel; one that states the hull number, if any does.
func (s *session) sister() jobsheet.Machine {
	var known jobsheet.Machine
	for _, m := range s.aboard() {
		if known.ID == "" || known.Vessel.Hull == "" {
			known = m
		}
	}
	return known
}

func (s *session) hull(known string) {
	text := s.ask(dialogue.Question{
		Key: "hull", Text: "Hull identification number, as on the transom", Offer: offer(known), Dashed: "none, or not known",
		Help: []string{"The country, the builder, a serial, month and year, as GB-ELS00042A323. It is cut into the transom, to starboard at the top, and often once more within."},
		Read: func(typed string) (string, error) {
			if hullPlain(typed) == hullPlain(known) && known != "" {
				return known, nil
			}
			return s.text(strings.ToUpper(typed))
		},
	})
	if s.m.Vessel.Hull = dialogue.Dashless(text); s.m.Vessel.Hull == "" {
		return
	}
	var odd []string
	if fault := check.HullFault(s.m.Vessel.Hull); fault != "" {
		odd = append(odd, fault)
	}
	if known != "" && s.m.Vessel.Hull != known {
		odd = append(odd, fmt.Sprintf("Other machines of %s have %s.", s.m.Vessel.Name, known))
	}
	s.confirm("hull", odd...)
}

func hullPlain(hull string) string {
	return strings.ToUpper(strings.NewReplacer("-", "", " ", "", ".", "").Replace(hull))
}

// place asks what it is and where it stands, for its id, and for what drives it.
func (s *session) place() {
	s.m.Kind = s.ask(dialogue.Question{
		Key: "kind", Text: "What it is: p propulsion diesel, g diesel generator, r reduction gear, s sail drive, o petrol outboard, or in your own words",
		Read: s.readKind,
		Help: []string{"It is printed on reports. A gear or a sail drive usually has no meter of its own and is asked for the engine that drives it."},
	})
	s.confirm("kind", noName(s.m.Kind)...)
	for _, k := range kinds {
		if k.word == s.m.Kind {
			s.kind = k
		}
	}
	s.m.Position = dialogue.Dashless(s.ask(dialogue.Question{
		Key: "position", Text: "Where it stands, as port or starboard", Offer: offer(s.otherSide()), Dashed: "the only one of its kind",
		Help: []string{"Where a vessel has two alike. p and s are port and starboard."},
		Read: func(typed string) (string, error) {
			if word, ok := sides[strings.ToLower(typed)]; ok {
				return word, nil
			}
			return s.text(typed)
		},
	}))
	if !s.a.Waiting() {
		s.confirm("position", slices.Concat(noName(s.m.Position), s.doubled())...)
	}
	s.id()
	s.driver()
}

var sides = map[string]string{"p": "port", "s": "starboard"}

func (s *session) readKind(typed string) (string, error) {
	for _, k := range kinds {
		if strings.EqualFold(typed, k.letter) || strings.EqualFold(typed, k.word) {
			return k.word, nil
		}
	}
	if len([]rune(typed)) < 3 {
		return "", fmt.Errorf("%s: type one of the letters p, g, r, s and o, or a few words", dialogue.Quoted(typed))
	}
	return s.text(typed)
}

// otherSide is the side of a vessel that has one of the kind on one side only; "" for
// none.
func (s *session) otherSide() string {
	stands := map[string]bool{}
	for _, m := range s.aboard() {
		if m.Kind == s.m.Kind {
			stands[m.Position] = true
		}
	}
	for side, other := range map[string]string{"port": "starboard", "starboard": "port"} {
		if stands[side] && !stands[other] {
			return other
		}
	}
	return ""
}

// doubled says that the vessel has a machine of the kind in that place.
func (s *session) doubled() []string {
	for _, m := range s.aboard() {
		if m.Kind == s.m.Kind && m.Position == s.m.Position {
			at := "with no position of its own"
			if m.Position != "" {
				at = m.Position
			}
			return []string{fmt.Sprintf("%s has a %s already, %s: %s, %s %s, serial %s.", m.Vessel.Name, m.Kind, at, m.ID, m.Make, m.Model, m.Serial)}
		}
	}
	return nil
}

func (s *session) id() {
	if s.ID != "" {
		s.m.ID = s.ID
		return
	}
	s.m.ID = s.ask(dialogue.Question{
		Key: "id", Text: "Its id, by which you will call it, and the file's name", Offer: s.likelyID(),
		Help: []string{"Small letters, digits and hyphens, as gannet-port. It goes into every record and stays."},
		Read: func(typed string) (string, error) {
			if err := jobsheet.CheckID(typed); err != nil {
				return "", err
			}
			if i := slices.IndexFunc(s.Machines, func(m jobsheet.Machine) bool { return m.ID == typed }); i >= 0 {
				m := s.Machines[i]
				return "", fmt.Errorf("%s is there already, %s %s, serial %s: write another", typed, m.Make, m.Model, m.Serial)
			}
			if s.Taken(typed) {
				return "", fmt.Errorf("a file for %s is there already: write another", typed)
			}
			return typed, nil
		},
	})
}

// likelyID is vessel, position and what it is, as far as they are needed; "" where
// nothing comes of it.
func (s *session) likelyID() string {
	name := s.kind.name
	if s.kind.word == "" {
		name = s.m.Kind
	} else if s.kind.word == kinds[0].word && s.m.Position != "" {
		name = "" // the propulsion engine is what one means by gannet-port
	}
	id := idOf(s.m.Vessel.Name, s.m.Position, name)
	if id == "" {
		return ""
	}
	for n := 2; s.Taken(id); n++ {
		end := "-" + strconv.Itoa(n)
		id = idOf(s.m.Vessel.Name, s.m.Position, name)
		id = strings.TrimRight(id[:min(len(id), jobsheet.MaxIDLength-len(end))], "-") + end
	}
	return id
}

// idOf makes an id of words; what an id does not take is left out.
func idOf(words ...string) string {
	var id strings.Builder
	for _, r := range strings.ToLower(strings.Join(words, " ")) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			id.WriteRune(r)
		case id.Len() > 0 && !strings.HasSuffix(id.String(), "-"):
			id.WriteByte('-')
		}
	}
	text := id.String()
	return strings.Trim(text[:min(len(text), jobsheet.MaxIDLength)], "-")
}

// driver asks for the engine whose hours count, of a machine that usually has no
// meter.
func (s *session) driver() {
	engines := s.engines()
	if s.a.Waiting() || len(engines) == 0 || s.kind.word != "" && !s.kind.driven {
		return
	}
	q := dialogue.Question{
		Key: "driven-by", Text: "Driven by, by number or id", Dashed: "it has a meter of its own",
		Said: numbered("It has the hours of the engine that drives it, if it has no meter of its own:", engines), Offer: dialogue.Dash,
		Read: func(typed string) (string, error) {
			if i := slices.Index(engines, typed); i >= 0 {
				return typed, nil
			}
			if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(engines) {
				return engines[n-1], nil
			}
			return "", fmt.Errorf("%s is none of them: type a number from 1 to %d, or -", dialogue.Quoted(typed), len(engines))
		},
	}
	if s.kind.driven {
		q.Offer = engines[0]
	}
	s.m.DrivenBy = dialogue.Dashless(s.ask(q))
}

// engines are the machines of the vessel with a meter of their own that may drive it,
// those in the same place first.
func (s *session) engines() []string {
	var same, others []string
	for _, m := range s.aboard() {
		switch {
		case m.DrivenBy != "" || m.Kind == kinds[1].word: // a generator drives its alternator
		case m.Position == s.m.Position:
			same = append(same, m.ID)
		default:
			others = append(others, m.ID)
		}
	}
	return append(same, others...)
}
