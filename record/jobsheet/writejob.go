package jobsheet

import (
	"slices"
	"strconv"

	"hourseal/record"
	"hourseal/record/quantity"
)

// YAML is the job sheet of a job, which ParseJob reads as the same job, but for
// Source and Accept.At. Its keys are in the order of the package comment. What is
// zero is left out, also where a sheet needs it: a job that is not complete can be
// written, and ParseJob then says what is missing. A text that no sheet may hold is
// written as it is, and refused when it is read.
func (j Job) YAML() []byte { return j.written().yaml() }

// JSON is the same sheet as JSON.
func (j Job) JSON() []byte { return j.written().json() }

func (j Job) written() written {
	return groupOf(jobForm, map[string]written{
		"machine":      writeText(j.Machine),
		"date":         dayOf(j.Date),
		"hours":        hoursOf(j.Meter, j.Estimate),
		"meter_change": writeIf(j.Meter.Change, meterChangeOf),
		"reason":       writeWord(j.Reason),
		"job_number":   writeText(j.Number),
		"place":        writeText(j.Place),
		"severe_duty":  writeTexts(j.SevereDuty),
		"fuel_used":    writeIf(j.FuelUsed, writeAmount),
		"technician":   technicianOf(j.By),
		"tasks":        eachOf(j.Tasks, taskOf),
		"other_work":   eachOf(j.OtherWork, otherWorkOf),
		"fluids":       eachOf(j.Fluids, fluidWritten),
		"topped_up":    eachOf(j.ToppedUp, topUpOf),
		"waste":        eachOf(j.Waste, wasteOf),
		"parts":        eachOf(j.Parts, partOf),
		"leak_check":   writeIf(j.LeakCheck, leakCheckOf),
		"files":        writeTexts(j.Files),
		"accept":       acceptOf(j.Accept),
		"notes":        notesOf(j.Notes),
	})
}

// dayOf leaves out the zero date, 1970-01-01, which is no day of a job.
func dayOf(d quantity.Date) written {
	if d == 0 {
		return written{}
	}
	return writeDate(d)
}

func hoursOf(m record.Meter, estimate *quantity.Hours) written {
	if m.State != record.Stopped && m.State != record.NoMeter {
		return writeIf(m.Reading, writeHours)
	}
	return groupOf(noMeterForm, map[string]written{
		"meter":    writeWord(m.State),
		"estimate": writeIf(estimate, writeHours),
		"basis":    writeText(m.Basis),
	})
}

func meterChangeOf(c record.MeterChange) written {
	removed := writeText("unknown")
	if c.RemovedAt != nil {
		removed = writeHours(*c.RemovedAt)
	}
	return groupOf(meterChangeForm, map[string]written{
		"removed_at": removed,
		"fitted_at":  writeHours(c.FittedAt),
		"why":        writeText(c.Why),
	})
}

func technicianOf(by record.By) written {
	return groupOf(technicianForm, map[string]written{
		"number":     writeText(by.Number),
		"name":       writeText(by.Name),
		"credential": writeText(by.Credential),
	})
}

// withAnswer puts an answer among the values of what it answers.
func withAnswer(a *record.Answer, values map[string]written) map[string]written {
	if a != nil {
		values["why"] = writeText(a.Why)
		values["advice"] = writeWord(a.Advice)
		values["told"] = writeIf(a.Told, writeDate)
		values["owner"] = writeWord(a.Owner)
	}
	return values
}

func taskOf(t record.Task) written {
	return groupOf(taskForm, withAnswer(t.Answer, map[string]written{
		"id":         writeText(t.ID),
		"result":     writeWord(t.Result),
		"look_again": writeIf(t.LookAgain, lookAgainOf),
		"reading":    readingsOf(t.Readings),
		"done_by":    writeText(t.DoneBy),
	}))
}

func otherWorkOf(o record.OtherWork) written {
	return groupOf(otherWorkForm, withAnswer(o.Answer, map[string]written{
		"text":    writeText(o.Text),
		"result":  writeWord(o.Result),
		"done_by": writeText(o.DoneBy),
	}))
}

func lookAgainOf(l record.LookAgain) written {
	return groupOf(lookAgainForm, map[string]written{
		"hours": writeIf(l.Hours, writeHours),
		"date":  writeIf(l.Date, writeDate),
	})
}

// readingsOf keeps the name of a reading whose figure is still to come.
func readingsOf(readings []record.Reading) written {
	var keys []writtenValue
	for _, r := range readings {
		figures := writeIf(r.Value, figureOf)
		if r.Value == nil {
			figures = groupOf(twoFiguresForm, map[string]written{
				"as_found": writeIf(r.AsFound, figureOf),
				"as_left":  writeIf(r.AsLeft, figureOf),
			})
			figures.shape = groupShape
		}
		keys = append(keys, writtenValue{r.Name, figures})
	}
	if len(keys) == 0 {
		return written{}
	}
	return written{shape: groupShape, keys: keys}
}

func figureOf(f quantity.Figure) written { return writePlain(f.String()) }

func fluidWritten(f record.Fluid) written {
	return apart(groupOf(fluidForm, map[string]written{
		"system":                  writeText(f.System),
		"level_before":            writeIf(f.LevelBefore, levelOf),
		"drained":                 writeIf(f.Drained, writeAmount),
		"drained_includes_filter": writeIf(f.WithFilter, writeTruth),
		"seen":                    seenOf(f.Saw, f.Answer),
		"filled":                  writeIf(f.Filled, writeAmount),
		"drawn_down":              writeIf(f.DrawnDown, writeAmount),
		"product":                 writeText(f.Product),
		"batch":                   writeText(f.Batch),
		"viscosity":               writeText(f.Viscosity),
		"meets":                   writeTexts(f.Meets),
		"glycol":                  writeWord(f.Glycol),
		"level":                   writeIf(f.Level, levelOf),
	}))
}

func levelOf(l record.Level) written {
	if l == (record.Level{}) {
		return writeText(notMeasured)
	}
	return groupOf(levelForm, map[string]written{
		"reading": writeIf(l.Reading, func(r quantity.Ratio) written { return writeNumber(r.String()) }),
		"after":   writeIf(l.After, minutesOf),
		"at":      writeIf(l.At, writeTemperature),
	})
}

func minutesOf(m quantity.Minutes) written { return writePlain(m.String()) }

func seenOf(saw []record.Sight, a *record.Answer) written {
	if a == nil && slices.Equal(saw, []record.Sight{record.SawNothing}) {
		return writeWord(record.SawNothing)
	}
	return groupOf(seenForm, withAnswer(a, map[string]written{"what": eachOf(saw, writeWord)}))
}

func topUpOf(t record.TopUp) written {
	return groupOf(topUpForm, map[string]written{"system": writeText(t.System), "amount": writeAmount(t.Amount)})
}

func wasteOf(w record.Waste) written {
	return groupOf(wasteForm, map[string]written{
		"system":  writeText(w.System),
		"amount":  writeAmount(w.Amount),
		"to":      writeText(w.To),
		"receipt": writeText(w.Receipt),
		"held":    writeText(w.Held),
	})
}

func partOf(p record.Part) written {
	quantity := written{}
	if p.Quantity != 0 {
		quantity = writeNumber(strconv.FormatUint(uint64(p.Quantity), 10))
	}
	return groupOf(partForm, map[string]written{
		"item":        writeText(p.Item),
		"number":      writeText(p.Number),
		"serial":      writeText(p.Serial),
		"quantity":    quantity,
		"supplied_by": writeWord(p.SuppliedBy),
	})
}

func leakCheckOf(l record.LeakCheck) written {
	return groupOf(leakCheckForm, map[string]written{
		"result": writeWord(l.Result),
		"after":  writeIf(l.After, minutesOf),
		"where":  writeText(l.Where),
	})
}

// acceptOf keeps the name of a finding whose reason is still to come.
func acceptOf(accepted []Accept) written {
	var keys []writtenValue
	for _, a := range accepted {
		finding := a.Code
		if a.Subject != "" {
			finding += "/" + a.Subject
		}
		keys = append(keys, writtenValue{finding, written{shape: textShape, text: a.Reason}})
	}
	if len(keys) == 0 {
		return written{}
	}
	return apart(written{shape: groupShape, keys: keys})
}

// notesOf writes lines as they stand. Notes that no sheet may hold could end the
// lines early, and stand between quotes.
func notesOf(notes string) written {
	if notes == "" || record.CheckNotes(notes) != nil {
		return writeText(notes)
	}
	return written{shape: linesShape, text: notes}
}
