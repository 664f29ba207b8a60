package check

import (
	"strings"

	"hourseal/record"
)

// seenRule wants an answer to water, metal or fuel that was seen in what was
// drained: it is a defect, found and left or put right.
func seenRule(b *bench) {
	for i, f := range b.Job.Fluids {
		var saw []string
		for _, sight := range f.Saw {
			if sight != record.SawNothing {
				saw = append(saw, sight.String())
			}
		}
		if len(saw) == 0 {
			continue
		}
		at, text := path("fluids", i, "seen"), strings.Join(saw, ", ")
		if f.Answer == nil || f.Answer.Why == "" {
			b.find(record.Refuse, at, record.Finding{Code: record.AnswerMissing, Subject: f.System, Text: text})
			continue
		}
		b.find(record.Note, at, record.Finding{Code: record.SeenInFluid, Subject: f.System, Text: text})
	}
}
