package record

import "hourseal/record/quantity"

// read reads the bytes of one record and nothing behind it. What it does not
// look at, the comparison and the checks in Decode do: absent fields, present
// ones that say nothing, values and texts that a record must not hold.
func read(data []byte) (*Record, error) {
	r := &reader{data: string(data)}
	found := r.record()
	if r.at < len(r.data) {
		r.fail("", errBehind)
	}
	if err := r.failure(); err != nil {
		return nil, err
	}
	return found, nil
}

func (r *reader) record() *Record {
	var v Record
	f := r.fields("")
	if f.has(1) {
		v.Format = number[uint](r, "format")
	}
	if f.has(2) {
		v.Renderer = number[uint](r, "renderer")
	}
	if f.has(3) {
		v.Paper = number[Paper](r, "paper")
	}
	if f.has(4) {
		v.PageHost = r.text("page host")
	}
	if f.has(5) {
		v.Kind = number[Kind](r, "kind")
	}
	if f.has(6) {
		v.Subject = new(r.subject())
	}
	if f.has(7) {
		v.Machine = r.machine()
	}
	if f.has(8) {
		v.Job = r.job()
	}
	if f.has(9) {
		v.By = r.by()
	}
	if f.has(10) {
		v.Previous = new(r.previous())
	}
	if f.has(11) {
		v.Schedule = r.scheduleRef()
	}
	if f.has(12) {
		v.Tasks = list(r, "tasks", MaxTasks, "task", (*reader).task)
	}
	if f.has(13) {
		v.OtherWork = list(r, "other work", MaxOtherWork, "other work", (*reader).otherWork)
	}
	if f.has(14) {
		v.Fluids = list(r, "fluids", MaxFluids, "fluid", (*reader).fluid)
	}
	if f.has(15) {
		v.ToppedUp = list(r, "topped up", MaxTopUps, "topped up", (*reader).topUp)
	}
	if f.has(16) {
		v.Waste = list(r, "waste", MaxWaste, "waste", (*reader).waste)
	}
	if f.has(17) {
		v.Parts = list(r, "parts", MaxParts, "part", (*reader).part)
	}
	if f.has(18) {
		v.LeakCheck = new(r.leakCheck())
	}
	if f.has(19) {
		v.Findings = list(r, "findings", MaxFindings, "finding", (*reader).finding)
	}
	if f.has(20) {
		v.Notes = r.text("notes")
	}
	if f.has(21) {
		v.Files = list(r, "files", MaxFiles, "file", (*reader).file)
	}
	if f.has(22) {
		v.Issuer = r.issuer()
	}
	if f.has(23) {
		v.Number = number[uint32](r, "number")
	}
	if f.has(24) {
		v.IssuedAt = number[int64](r, "issued at")
	}
	f.end()
	return &v
}

func (r *reader) subject() (v Subject) {
	f := r.fields("subject")
	if f.has(1) {
		v.Record = r.digest("record")
	}
	if f.has(2) {
		v.Why = r.text("why")
	}
	f.end()
	return v
}

func (r *reader) machine() (v Machine) {
	f := r.fields("machine")
	if f.has(1) {
		v.ID = r.text("id")
	}
	if f.has(2) {
		v.Vessel = r.text("vessel")
	}
	if f.has(3) {
		v.Hull = r.text("hull")
	}
	if f.has(4) {
		v.Kind = r.text("kind")
	}
	if f.has(5) {
		v.Position = r.text("position")
	}
	if f.has(6) {
		v.Make = r.text("make")
	}
	if f.has(7) {
		v.Model = r.text("model")
	}
	if f.has(8) {
		v.Serial = r.text("serial")
	}
	if f.has(9) {
		v.RatedPower = number[quantity.Power](r, "rated power")
	}
	if f.has(10) {
		v.DrivenBy = r.text("driven by")
	}
	if f.has(11) {
		v.InService = r.point("in service")
	}
	f.end()
	return v
}

func (r *reader) job() (v Job) {
	f := r.fields("job")
	if f.has(1) {
		v.Date = number[quantity.Date](r, "date")
	}
	if f.has(2) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	if f.has(3) {
		v.Meter = r.meter()
	}
	if f.has(4) {
		v.Reason = number[Reason](r, "reason")
	}
	if f.has(5) {
		v.Place = r.text("place")
	}
	if f.has(6) {
		v.Number = r.text("number")
	}
	if f.has(7) {
		v.SevereDuty = list(r, "severe duty", MaxDuties, "severe duty", (*reader).met)
	}
	if f.has(8) {
		v.FuelUsed = new(r.measured("fuel used"))
	}
	f.end()
	return v
}

func (r *reader) meter() (v Meter) {
	f := r.fields("meter")
	if f.has(1) {
		v.State = number[MeterState](r, "state")
	}
	if f.has(2) {
		v.Reading = new(number[quantity.Hours](r, "reading"))
	}
	if f.has(3) {
		v.Basis = r.text("basis")
	}
	if f.has(4) {
		v.Offset = number[quantity.Hours](r, "offset")
	}
	if f.has(5) {
		v.Change = new(r.meterChange())
	}
	f.end()
	return v
}

func (r *reader) meterChange() (v MeterChange) {
	f := r.fields("change")
	if f.has(1) {
		v.RemovedAt = new(number[quantity.Hours](r, "removed at"))
	}
	if f.has(2) {
		v.FittedAt = number[quantity.Hours](r, "fitted at")
	}
	if f.has(3) {
		v.Why = r.text("why")
	}
	f.end()
	return v
}

func (r *reader) by() (v By) {
	f := r.fields("technician")
	if f.has(1) {
		v.Number = r.text("number")
	}
	if f.has(2) {
		v.Name = r.text("name")
	}
	if f.has(3) {
		v.Credential = r.text("credential")
	}
	f.end()
	return v
}

func (r *reader) previous() (v Previous) {
	f := r.fields("previous")
	if f.has(1) {
		v.Record = r.digest("record")
	}
	if f.has(2) {
		v.Date = number[quantity.Date](r, "date")
	}
	if f.has(3) {
		v.Hours = number[quantity.Hours](r, "hours")
	}
	f.end()
	return v
}

func (r *reader) scheduleRef() (v ScheduleRef) {
	f := r.fields("schedule")
	if f.has(1) {
		v.ID = r.text("id")
	}
	if f.has(2) {
		v.Edition = number[uint](r, "edition")
	}
	if f.has(3) {
		v.Basis = r.basis()
	}
	if f.has(4) {
		v.Digest = r.digest("digest")
	}
	f.end()
	return v
}

func (r *reader) issuer() (v Issuer) {
	f := r.fields("issuer")
	if f.has(1) {
		v.Name = r.text("name")
	}
	if f.has(2) {
		v.Kind = number[IssuerKind](r, "kind")
	}
	if f.has(3) {
		v.Contact = r.text("contact")
	}
	if f.has(4) {
		v.Address = r.text("address")
	}
	f.end()
	return v
}

func (r *reader) file(v *File) {
	f := r.fields("")
	if f.has(1) {
		v.Name = r.text("name")
	}
	if f.has(2) {
		v.SHA256 = r.digest("sha256")
	}
	f.end()
}
