package closeout

import (
	"slices"

	"hourseal/record"
	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

var levelHelp = []string{
	"0 is the lower mark, 1 the upper, as 0.85; above the upper mark more than 1, below the lower less than 0.",
	"Behind it how long the engine had stood, and how warm the oil was: 0.85 after 15 min at 45 C.",
}

func (s *session) levelBefore(at string, system jobsheet.System) *record.Level {
	text := s.ask(at+"/level_before", dialogue.Question{
		Key: fluidKey(system, "level-before"), Text: spoken(system.Name) + ": level before, as 0.3 after 20 min at 18 C",
		Dashed: notMeasured, Help: levelHelp, Read: dialogue.Reading(jobsheet.LineLevel),
	})
	return levelOf(text)
}

// levelOf is a level as it was answered; one that was not measured says so.
func levelOf(text string) *record.Level {
	if text == "" {
		return nil
	}
	l, err := jobsheet.LineLevel(text)
	if err != nil {
		return nil
	}
	return &l
}

// levels asks for the levels once the engine was run and stood, and says what
// follows from all figures.
func (s *session) levels() {
	for i := range s.job.Fluids {
		system, _ := s.Machine.System(s.job.Fluids[i].System)
		wants := slices.ContainsFunc(jobsheet.EvidenceFor(s.done), func(e jobsheet.Evidence) bool { return e.System == system.Name && e.Level })
		if !wants || s.a.Waiting() {
			continue
		}
		at := fluidPath(i)
		text := s.ask(at+"/level", dialogue.Question{
			Key: fluidKey(system, "level"), Text: spoken(system.Name) + ": level now, as 0.85 after 15 min at 45 C",
			Dashed: notMeasured, Help: levelHelp, Read: dialogue.Reading(jobsheet.LineLevel),
		})
		s.job.Fluids[i].Level = levelOf(text)
		if l := s.job.Fluids[i].Level; l != nil && l.Reading != nil && *l.Reading > quantity.One {
			s.drawDown(at, system, i)
		}
		if s.a.Waiting() {
			continue
		}
		if said := s.balanceSaid(system, s.job.Fluids[i]); said != "" {
			s.a.Say(said)
		}
		s.look(at, "topped_up")
	}
}

// drawDown asks whether what was too much was drawn off, and for the level then.
func (s *session) drawDown(at string, system jobsheet.System, i int) {
	drawn := s.amount(at+"/drawn_down", dialogue.Question{
		Key: fluidKey(system, "drawn-down"), Text: "Above the upper mark. Drawn off again since, as 0.5 L", Offer: dialogue.Dash, Dashed: "nothing",
	})
	if drawn == nil || drawn.NotMeasured {
		return
	}
	s.job.Fluids[i].DrawnDown = drawn
	text := s.ask(at+"/level", dialogue.Question{
		Key: fluidKey(system, "level-after-drawing"), Text: "Level after that, as 0.85 after 15 min at 45 C", Dashed: notMeasured, Help: levelHelp, Read: dialogue.Reading(jobsheet.LineLevel),
	})
	s.job.Fluids[i].Level = levelOf(text)
}
