package check

import (
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/jobsheet"
)

// accept gives each reason of the sheet to the finding that it names. A bare
// code must fit one finding; a reason that fits none is a fault, so that no
// blanket excuse survives the job that it was written for.
func accept(reasons []jobsheet.Accept, findings []Finding) jobsheet.Faults {
	var faults jobsheet.Faults
	for _, reason := range reasons {
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
		fit[0].Accepted = reason.Reason
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
	case len(fit) > 1:
		keys := make([]string, len(fit))
		for i, f := range fit {
			keys[i] = f.Code.String() + "/" + f.Subject
		}
		return fmt.Sprintf("%s fits %d findings: write %s", key, len(fit), strings.Join(keys, " and "))
	case fit[0].Severity == record.Refuse:
		return fmt.Sprintf("%s cannot be true, no reason makes it so: correct the sheet", key)
	case fit[0].Severity == record.Note:
		return fmt.Sprintf("%s needs no reason: take the line out", key)
	case fit[0].Accepted != "":
		return fmt.Sprintf("%s is accepted twice: keep one line", key)
	}
	return ""
}
