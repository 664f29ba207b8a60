package jobsheet

import "strings"

// FormKey is a key of a form, for the test that holds the forms to the package
// comment.
type FormKey struct {
	Name, Want string
	Required   bool
}

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
			lists[name] = append(lists[name], FormKey{k.name, k.want, k.need == required})
		}
	}
	return lists
}

// KeyPaths are the paths of all keys of a kind of file, with their forms' keys; entries
// of lists, and names that people choose, are *.
func KeyPaths(kind string) map[string]FormKey {
	forms := map[string]map[string]form{
		"job": {
			"": jobForm, "hours": noMeterForm, "meter_change": meterChangeForm, "technician": technicianForm,
			"tasks/*": taskForm, "tasks/*/look_again": lookAgainForm, "tasks/*/reading/*": twoFiguresForm,
			"other_work/*": otherWorkForm, "fluids/*": fluidForm, "fluids/*/seen": seenForm, "fluids/*/level": levelForm,
			"topped_up/*": topUpForm, "waste/*": wasteForm, "parts/*": partForm, "leak_check": leakCheckForm,
		},
		"machine": {"": machineForm, "vessel": vesselForm, "in_service": pointForm, "earlier/*": statementForm, "systems/*": systemForm},
	}
	paths := map[string]FormKey{}
	for path, f := range forms[kind] {
		for _, k := range f {
			paths[strings.TrimPrefix(path+"/"+k.name, "/")] = FormKey{k.name, k.want, k.need == required}
		}
	}
	return paths
}

var WithoutExponent = withoutExponent
