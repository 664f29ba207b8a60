package check

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/jobsheet"
)

// accept gives each reason of the sheet to the finding that it names. A bare
// code must fit one subject; a reason that fits none is a fault, so that no
// blanket excuse survives the job that it was written for. A code that is no
// rule's is jobsheet.Resolve's to refuse.
func accept(reasons []jobsheet.Accept, findings []Finding) jobsheet.Faults {
	var faults jobsheet.Faults
	for _, reason := range reasons {
		if !isRule(reason.Code) {
			continue
		}
		var fit []*Finding
		for i := range findings {
			f := &findings[i]
			if f.Code.String() == reason.Code && (reason.Subject == "" || reason.Subject == f.Subject) {
				fit = append(fit, f)
			}
		}
		if message := misfit(reason, fit); message != "" {
			faults = append(faults, jobsheet.Fault{File: reason.At, Field: "accept", Message: message})
			continue
		}
		for _, f := range fit {
			f.Accepted = reason.Reason
		}
	}
	return faults
}

// misfit says why a reason cannot be given to what it names; "" when it can.
func misfit(reason jobsheet.Accept, fit []*Finding) string {
	key := reason.Code
	if reason.Subject != "" {
		key += "/" + reason.Subject
	}
	switch {
	case len(fit) == 0:
		return fmt.Sprintf("%s accepts nothing: this job has no such finding: take the line out", key)
	case slices.ContainsFunc(fit, func(f *Finding) bool { return f.Subject != fit[0].Subject }):
		keys := make([]string, len(fit))
		for i, f := range fit {
			keys[i] = f.Code.String() + "/" + f.Subject
		}
		return fmt.Sprintf("%s fits %d findings: write %s", key, len(fit), strings.Join(slices.Compact(keys), " and "))
	case slices.ContainsFunc(fit, func(f *Finding) bool { return f.Severity == record.Refuse }):
		return fmt.Sprintf("%s cannot be true, no reason makes it so: correct the sheet", key)
	case fit[0].Severity == record.Note:
		return fmt.Sprintf("%s needs no reason: take the line out", key)
	case fit[0].Accepted != "":
		return fmt.Sprintf("%s is accepted twice: keep one line", key)
	}
	return ""
}

func isRule(name string) bool {
	for _, rule := range record.Rules {
		if rule.Name == name {
			return true
		}
	}
	return false
}
