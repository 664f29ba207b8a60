package jobsheet_test

import (
	"reflect"
	"slices"
	"strings"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
)

// randomJob draws a job that a sheet can say, with odd texts in it. It is made of a
// random record, less what a sheet does not state.
func randomJob(t *rapid.T) jobsheet.Job {
	r := recordtest.Random(t)
	odd := func(texts ...*string) {
		for _, s := range texts {
			if *s != "" && rapid.Bool().Draw(t, "odd") {
				*s = oddText().Draw(t, "text")
			}
		}
	}
	j := jobsheet.Job{
		Machine: rapid.SampledFrom([]string{r.Machine.ID, "null", "0012", "1e5", "true", "0x1f", "n"}).Draw(t, "machine"),
		Date:    r.Job.Date, Meter: r.Job.Meter, Reason: r.Job.Reason, Place: r.Job.Place, Number: r.Job.Number,
		SevereDuty: distinct(r.Job.SevereDuty), FuelUsed: r.Job.FuelUsed, By: r.By,
		OtherWork: nilIfEmpty(r.OtherWork), ToppedUp: nilIfEmpty(r.ToppedUp), Waste: nilIfEmpty(r.Waste), Parts: nilIfEmpty(r.Parts), LeakCheck: r.LeakCheck,
		Notes: r.Notes,
		Files: rapid.SampledFrom([][]string{nil, {"plate.jpg"}, {"plate.jpg", "007", "null", "1e5.csv"}}).Draw(t, "files"),
	}
	if j.Date == 0 {
		j.Date = 1
	}
	if j.Meter.Offset = 0; j.Meter.State != record.Running {
		j.Estimate = new(r.Job.Hours)
		odd(&j.Meter.Basis)
	}
	if c := j.Meter.Change; c != nil {
		odd(&c.Why)
	}
	odd(&j.Place, &j.Number, &j.By.Number, &j.By.Name, &j.By.Credential)
	for _, task := range r.Tasks {
		if task.Result == 0 {
			continue
		}
		stated := record.Task{ID: task.ID, Result: task.Result, Answer: task.Answer, LookAgain: task.LookAgain, Readings: nilIfEmpty(task.Readings), DoneBy: task.DoneBy}
		for i := range stated.Readings {
			odd(&stated.Readings[i].Name)
		}
		stated.Readings = distinctBy(stated.Readings, func(r record.Reading) string { return r.Name })
		odd(&stated.DoneBy)
		oddAnswer(odd, stated.Answer)
		j.Tasks = append(j.Tasks, stated)
	}
	for i := range j.OtherWork {
		odd(&j.OtherWork[i].Text, &j.OtherWork[i].DoneBy)
		oddAnswer(odd, j.OtherWork[i].Answer)
	}
	for _, f := range r.Fluids {
		stated := record.Fluid{System: f.System, LevelBefore: stateable(f.LevelBefore), Drained: f.Drained, WithFilter: f.WithFilter, Filled: f.Filled,
			Level: stateable(f.Level), Product: f.Product, Batch: f.Batch, Viscosity: f.Viscosity, DrawnDown: f.DrawnDown, Glycol: f.Glycol, Saw: f.Saw, Answer: f.Answer}
		odd(&stated.Product, &stated.Batch, &stated.Viscosity)
		for i := range f.Meets {
			odd(&f.Meets[i])
		}
		stated.Meets = distinct(f.Meets)
		oddAnswer(odd, stated.Answer)
		j.Fluids = append(j.Fluids, stated)
	}
	for i := range j.Waste {
		odd(&j.Waste[i].To, &j.Waste[i].Receipt, &j.Waste[i].Held)
	}
	for i := range j.Parts {
		odd(&j.Parts[i].Item, &j.Parts[i].Number, &j.Parts[i].Serial)
	}
	if j.LeakCheck != nil {
		odd(&j.LeakCheck.Where)
	}
	j.Accept = randomAccepts(t)
	if rapid.Bool().Draw(t, "odd notes") {
		j.Notes = oddNotes(t)
	}
	return j
}

func oddAnswer(odd func(...*string), a *record.Answer) {
	if a != nil {
		odd(&a.Why)
	}
}

func randomAccepts(t *rapid.T) []jobsheet.Accept {
	codes := rapid.OneOf(rapid.SampledFrom([]string{"level-high", "done-late", "null", "no"}), oddText().Filter(func(s string) bool { return !strings.Contains(s, "/") }))
	var accepted []jobsheet.Accept
	for range rapid.IntRange(0, 3).Draw(t, "accepted") {
		a := jobsheet.Accept{Code: codes.Draw(t, "code"), Reason: oddText().Draw(t, "reason")}
		if rapid.Bool().Draw(t, "with subject") {
			a.Subject = oddText().Draw(t, "subject")
		}
		accepted = append(accepted, a)
	}
	return distinctBy(accepted, func(a jobsheet.Accept) string { return a.Code + "/" + a.Subject })
}

// oddNotes draws lines that begin and end in ways of which YAML thinks its own.
func oddNotes(t *rapid.T) string {
	var lines []string
	for range rapid.IntRange(1, 5).Draw(t, "lines") {
		lead := rapid.SampledFrom([]string{"", "", "  ", "# ", "- ", "---", "...", "key: "}).Draw(t, "lead")
		end := rapid.SampledFrom([]string{"", "", "  ", ":"}).Draw(t, "end")
		lines = append(lines, lead+rapid.OneOf(oddText(), rapid.Just("")).Draw(t, "line")+end)
	}
	notes := strings.TrimSpace(strings.Join(lines, "\n"))
	if record.CheckNotes(notes) != nil {
		return ""
	}
	return notes
}

// stateable is a level that a sheet can state: with a reading, or not measured at all.
func stateable(l *record.Level) *record.Level {
	switch {
	case l == nil:
		return nil
	case l.Reading == nil:
		return &record.Level{}
	}
	if l.At != nil {
		l.At = new(min(max(*l.At, -100*quantity.Degree), 300*quantity.Degree))
	}
	return l
}

func nilIfEmpty[T any](list []T) []T {
	if len(list) == 0 {
		return nil
	}
	return list
}

func distinct(texts []string) []string {
	return distinctBy(texts, func(s string) string { return s })
}

func distinctBy[T any](list []T, name func(T) string) []T {
	var kept []T
	for _, item := range list {
		if !slices.ContainsFunc(kept, func(k T) bool { return name(k) == name(item) }) {
			kept = append(kept, item)
		}
	}
	return kept
}

// filled adds the fields of a value that are not zero, and those of what is in it, to
// the ones seen: "Tasks.Answer.Why".
func filled(v reflect.Value, path string, seen map[string]bool) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			seen[path] = true
			filled(v.Elem(), path, seen)
		}
	case reflect.Slice:
		for i := range v.Len() {
			filled(v.Index(i), path, seen)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			filled(v.Field(i), strings.TrimPrefix(path+"."+v.Type().Field(i).Name, "."), seen)
		}
	default:
		seen[path] = seen[path] || !v.IsZero()
	}
}

// fieldsOf lists the fields of a type and of what is in it, as filled names them.
func fieldsOf(of reflect.Type, path string) []string {
	switch of.Kind() {
	case reflect.Pointer, reflect.Slice:
		return fieldsOf(of.Elem(), path)
	case reflect.Struct:
		var all []string
		for i := range of.NumField() {
			all = append(all, fieldsOf(of.Field(i).Type, strings.TrimPrefix(path+"."+of.Field(i).Name, "."))...)
		}
		return all
	}
	return []string{path}
}
