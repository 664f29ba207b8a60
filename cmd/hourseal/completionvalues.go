package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/schedule"
	"hourseal/sign"
)

// What the yard knows, for the completion. A file that cannot be read is passed over.

// mostDescribed is how many files are read for what they are. Beyond it names alone are
// given, so that the Tab key answers at once in a large yard, too.
const mostDescribed = 100

// yard is the yard folder, by --yard on the line or as every command finds it.
func (a *asked) yard() (yard, bool) {
	y, err := a.p.yardAt(a.atHome(a.value("--yard")))
	return y, err == nil
}

// atHome puts the home folder in for a tilde, which a shell does after completing.
func (a *asked) atHome(path string) string {
	if rest, is := strings.CutPrefix(path, "~/"); is {
		return filepath.Join(a.p.getenv("HOME"), rest)
	}
	return path
}

func machinesOf(a *asked, typed string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	ids, _ := y.files.MachineIDs()
	return a.machines(y, ids, typed)
}

// recordedMachines are those with a machine file and those that have none any more.
func recordedMachines(a *asked, typed string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	filed, _ := y.files.MachineIDs()
	recorded, _ := y.ledger.Machines()
	return a.machines(y, slices.Compact(slices.Sorted(slices.Values(append(filed, recorded...)))), typed)
}

func (a *asked) machines(y yard, ids []string, typed string) []candidate {
	ids = beginning(ids, typed)
	ids = slices.DeleteFunc(ids, func(id string) bool { return slices.Contains(a.names, id) })
	var found []candidate
	for _, id := range ids {
		text := ""
		if len(ids) <= mostDescribed {
			if m, err := y.files.Machine(id); err == nil {
				text = aboutMachine(m)
			}
		}
		found = append(found, candidate{id, text})
	}
	return found
}

func aboutMachine(m jobsheet.Machine) string {
	var parts []string
	for _, part := range []string{m.Vessel.Name, m.Position, m.Make + " " + m.Model} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, ", ")
}

// recordsOf are machine/number, the newest first. In a yard with many records it is the
// machines at first, and the records of one once that is typed.
func recordsOf(a *asked, typed string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	recorded, _ := y.ledger.Machines()
	machine, _, isWhole := strings.Cut(typed, "/")
	var ids []string
	numbers := map[string][]int{}
	all := 0
	for _, id := range recorded {
		if !strings.HasPrefix(id, machine) || isWhole && id != machine {
			continue
		}
		ids = append(ids, id)
		numbers[id] = recordNumbers(y, id)
		all += len(numbers[id])
	}
	var found []candidate
	for _, id := range ids {
		if all > mostDescribed && len(ids) > 1 {
			found = append(found, candidate{id + "/", countOf(strconv.Itoa(len(numbers[id])), "record")})
			continue
		}
		for _, n := range numbers[id] {
			text := ""
			if all <= mostDescribed {
				text = aboutRecord(y, id, n)
			}
			found = append(found, candidate{fmt.Sprintf("%s/%d", id, n), text})
		}
	}
	return found
}

// recordNumbers are the numbers of a machine's record files, the last first.
func recordNumbers(y yard, machine string) []int {
	entries, _ := os.ReadDir(y.path("records", machine))
	var numbers []int
	for _, e := range entries {
		if n, err := strconv.Atoi(strings.TrimSuffix(e.Name(), ".cose")); err == nil && strings.HasSuffix(e.Name(), ".cose") {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	slices.Reverse(numbers)
	return numbers
}

// aboutRecord is a record's date, hours and kind, unproven: it only helps to choose.
func aboutRecord(y yard, machine string, number int) string {
	data, err := os.ReadFile(y.path("records", machine, fmt.Sprintf("%04d.cose", number)))
	if err != nil {
		return ""
	}
	opened, err := sign.Unproven(data)
	if err != nil {
		return ""
	}
	r, err := record.Decode(opened.Payload)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%s, %s h, %s", r.Job.Date, r.Job.Hours, r.Kind)
}

// jobsOf are the yard's job sheets, as they are typed in the working folder.
func jobsOf(a *asked, _ string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	entries, _ := os.ReadDir(y.path("jobs"))
	var found []candidate
	for _, e := range entries {
		if ext := filepath.Ext(e.Name()); e.IsDir() || strings.HasPrefix(e.Name(), ".") || ext != ".yaml" && ext != ".json" {
			continue
		}
		if name := asTyped(y.path("jobs", e.Name())); !slices.Contains(a.names, name) {
			found = append(found, candidate{value: name})
		}
	}
	return found
}

// asTyped is a file's name from the working folder where it lies below that.
func asTyped(name string) string {
	working, err := os.Getwd()
	if err != nil {
		return name
	}
	whole, err := filepath.Abs(name)
	if err != nil {
		return name
	}
	if inside, err := filepath.Rel(working, whole); err == nil && filepath.IsLocal(inside) {
		return inside
	}
	return name
}

func schedulesOf(a *asked, typed string) []candidate {
	folder, err := a.p.schedulesAt(a.atHome(a.value("--yard")))
	if err != nil {
		return nil
	}
	origins, _ := folder.ScheduleIDs()
	var found []candidate
	for _, o := range origins {
		if !strings.HasPrefix(o.ID, typed) {
			continue
		}
		text := ""
		if s, _, err := folder.Schedule(o.ID); err == nil {
			text = s.Title
		}
		found = append(found, candidate{o.ID, text})
	}
	return found
}

// tasksOf are the tasks of the machine that the line names, by itself or by a record of
// its; of all machines of the yard where it names none.
func tasksOf(a *asked, _ string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	ids := []string{}
	for _, name := range a.names {
		id, _, _ := strings.Cut(name, "/")
		ids = append(ids, id)
	}
	if len(ids) == 0 {
		ids, _ = y.files.MachineIDs()
		ids = ids[:min(len(ids), mostDescribed)]
	}
	seen := map[string]bool{}
	var found []candidate
	for _, id := range ids {
		for _, t := range machineTasks(y, id) {
			if !seen[t.ID] {
				seen[t.ID] = true
				found = append(found, candidate{t.ID, t.Title})
			}
		}
	}
	return found
}

func machineTasks(y yard, machine string) []schedule.Task {
	m, err := y.files.Machine(machine)
	if err != nil {
		return nil
	}
	s, err := y.files.ScheduleOf(m)
	if err != nil {
		return nil
	}
	return s.Tasks
}

func systemsOf(a *asked, _ string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	id := a.value("--machine")
	if id == "" && len(a.names) > 0 {
		id = a.names[0]
	}
	m, err := y.files.Machine(id)
	if err != nil {
		return nil
	}
	var found []candidate
	for _, s := range m.Systems {
		found = append(found, candidate{value: s.Name})
	}
	return found
}

// keysOf are the yard's public keys.
func keysOf(a *asked, _ string) []candidate {
	y, ok := a.yard()
	if !ok {
		return nil
	}
	var found []candidate
	for file, key := range y.publicKeys() {
		found = append(found, candidate{asTyped(strings.TrimSuffix(file, ".pub")), key.Fingerprint()})
	}
	slices.SortFunc(found, func(a, b candidate) int { return strings.Compare(a.value, b.value) })
	return found
}

func trustedNames(a *asked, _ string) []candidate {
	file, err := trustFile(a.atHome(a.value("--trust")))
	if err != nil {
		return nil
	}
	data, err := os.ReadFile(file)
	if err != nil {
		return nil
	}
	list, err := sign.ParseTrust(data, file)
	if err != nil {
		return nil
	}
	var found []candidate
	for _, t := range list {
		found = append(found, candidate{t.Name, t.Key.Fingerprint()})
	}
	return found
}

func yearsOf(a *asked, _ string) []candidate {
	var found []candidate
	for year := a.p.today().Year(); len(found) < 5; year-- {
		found = append(found, candidate{value: strconv.Itoa(year)})
	}
	return found
}

func beginning(words []string, typed string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return !strings.HasPrefix(w, typed) })
}
