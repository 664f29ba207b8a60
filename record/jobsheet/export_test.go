package jobsheet

// FormKey is a key of a form, for the test that holds the forms to the package
// comment.
type FormKey struct{ Name, Want string }

// Forms lists the keys of every group.
func Forms() map[string][]FormKey {
	lists := map[string][]FormKey{}
	for name, f := range map[string]form{
		"yard": yardForm, "uncertainty": doubtForm, "writes": writesForm, "machine": machineForm, "vessel": vesselForm, "in_service": pointForm, "earlier": statementForm,
		"systems": systemForm, "schedule": scheduleForm, "basis": basisForm, "grace": graceForm, "schedule tasks": scheduleTaskForm,
		"every": intervalForm, "needs": needsForm, "severe": severeForm, "job": jobForm, "hours": noMeterForm,
		"meter_change": meterChangeForm, "technician": technicianForm, "parts": partForm, "leak_check": leakCheckForm,
		"tasks": taskForm, "other_work": otherWorkForm, "look_again": lookAgainForm, "reading": twoFiguresForm,
		"fluids": fluidForm, "seen": seenForm, "level": levelForm, "topped_up": topUpForm, "waste": wasteForm,
	} {
		for _, k := range f {
			lists[name] = append(lists[name], FormKey{k.name, k.want})
		}
	}
	return lists
}
