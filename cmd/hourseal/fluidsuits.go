package main

import (
	"slices"
	"strings"

	"github.com/urfave/cli/v2"

	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
)

// fluidSuits tells whether an oil suits what is asked for, by marks and by grade.
func (p *program) fluidSuits(c *cli.Context) (exitCode, error) {
	if err := noNames(c, "oil"); err != nil {
		return exitUsage, err
	}
	s, _, named, err := p.ofMachine(c)
	if err != nil {
		return codeOf(err), err
	}
	meets, grades := jobsheet.MarksAndGrades(c.String("oil"))
	if len(meets)+len(grades) == 0 {
		return exitUsage, usageError{"--oil is needed", `--oil "API CK-4, 15W-40"`}
	}
	askedMeets, askedGrades := s.Meets, s.Viscosity
	if c.IsSet("asked") || !named {
		askedMeets, askedGrades = jobsheet.MarksAndGrades(c.String("asked"))
	}
	if len(askedMeets)+len(askedGrades) == 0 {
		message := "--asked or --machine is needed"
		if named && !c.IsSet("asked") {
			message = "nothing is asked for: the machine file names no meets and no viscosity for " + s.Name
		}
		return exitUsage, usageError{message, `--asked "API CI-4, ACEA E7, 15W-40"`}
	}
	for _, mark := range meets { // a machine file may ask for an ATF in place of a grade
		if fluid.Viscosity(mark, askedGrades).Suits {
			grades = append(grades, mark)
		}
	}
	sum := benchSum{
		Input:    map[string]any{"oil": c.String("oil"), "asked": slices.Concat(askedMeets, askedGrades)},
		Result:   map[string]any{},
		Formula:  "any one of the marks asked for, and any one of the grades; another by the table only",
		Source:   "API Motor Oil Guide; ACEA 2022; SAE J300-2015; SAE J306-2005",
		cautions: []string{governs},
	}
	marksSuit := sum.judge("marks", strings.Join(meets, ", "), askedMeets, fluid.Suits(meets, askedMeets))
	gradeSuits := sum.judge("grade", strings.Join(grades, ", "), askedGrades, bestGrade(grades, askedGrades))
	suits := marksSuit && gradeSuits
	sum.Result["suits"] = suits
	sum.answer = "It suits, by the tables."
	if !suits {
		sum.answer = "By the tables it does not suit."
	}
	if code, err := p.saySum(c, sum); err != nil || suits {
		return code, err
	}
	return exitDecide, nil
}

// judgement is what the tables say of the marks or the grade, in JSON.
type judgement struct {
	Suits  bool    `json:"suits"`
	Have   *string `json:"have"`  // what decides; null for none
	Asked  *string `json:"asked"` // what it answers
	Why    *string `json:"why"`
	Source *string `json:"source"` // the table that allows it; null for none
}

// judge puts what the tables say of what was found on a container into a sum, and
// says whether it suits. Where nothing is asked for, anything does.
func (s *benchSum) judge(what, found string, asked []string, got fluid.Suitability) bool {
	s.Result[what] = nil
	if len(asked) == 0 {
		return true
	}
	var text string
	var source *string
	switch {
	case found == "":
		text = "not stated; asked: " + strings.Join(asked, " or ")
	case got.Suits && got.Direct:
		text = got.Have + " is asked for"
	case got.Suits:
		text = got.Have + " for " + got.Asked + ": " + got.Why + " (" + got.Source + ")"
		source = orNull(got.Source)
	default:
		text = found + " does not answer " + strings.Join(asked, " or ")
		if got.Why != "" {
			text += ": " + got.Why
		}
	}
	s.rows = append(s.rows, []string{what, text})
	s.Result[what] = judgement{got.Suits, orNull(got.Have), orNull(got.Asked), orNull(got.Why), source}
	return got.Suits
}

// bestGrade is what the tables say of the grades on a container, of which there is
// one as a rule.
func bestGrade(grades, asked []string) fluid.Suitability {
	var answer fluid.Suitability
	for i, grade := range grades {
		if got := fluid.Viscosity(grade, asked); i == 0 || got.Suits && !answer.Suits {
			answer = got
		}
	}
	return answer
}
