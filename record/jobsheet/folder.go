package jobsheet

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"

	"hourseal/record/schedule"
)

const (
	yardFile    = "yard.yaml"
	machinesDir = "machines"
	// Schedules stand in the yard's folder, or at the root of the built-in ones.
	schedulesDir = "schedules"
	builtinLabel = "built-in" // stands for a folder in messages
	extension    = ".yaml"
)

// Folder is a yard folder and the schedules that come with the program. Files
// are named in messages by their path from the yard folder.
type Folder struct{ yard, builtin fs.FS }

// Open gives the yard folder at the root of yard. Built-in schedules are the
// files <id>.yaml at the root of builtin; nil has none. Nothing is read yet.
func Open(yard, builtin fs.FS) Folder { return Folder{yard: yard, builtin: builtin} }

// Yard reads yard.yaml.
func (f Folder) Yard() (Yard, error) {
	data, err := read(f.yard, yardFile)
	if errors.Is(err, fs.ErrNotExist) {
		return Yard{}, Faults{{File: yardFile, Message: "no such file: this is not a yard folder"}}
	}
	if err != nil {
		return Yard{}, err
	}
	return ParseYard(yardFile, data)
}

// Machine reads machines/<id>.yaml. An id that has no file is a fault that
// names the ids there are.
func (f Folder) Machine(id string) (Machine, error) {
	file := fileOf(machinesDir, id)
	data, err := read(f.yard, file)
	if errors.Is(err, fs.ErrNotExist) {
		ids, _ := f.MachineIDs()
		return Machine{}, Faults{{File: machinesDir, Message: show(id) + " is no machine of this yard: " + instead(id, ids)}}
	}
	if err != nil {
		return Machine{}, err
	}
	return ParseMachine(file, data)
}

// MachineIDs lists the machines, sorted. A YAML file whose name is no id is a
// fault, since a machine must not be passed over in silence.
func (f Folder) MachineIDs() ([]string, error) { return idsIn(f.yard, machinesDir, machinesDir) }

// Schedule reads the yard's own schedules/<id>.yaml or, where there is none,
// the built-in one. An id that neither has is a fault that names the ids there
// are.
func (f Folder) Schedule(id string) (schedule.Schedule, Source, error) {
	file := fileOf(schedulesDir, id)
	data, err := read(f.yard, file)
	if err == nil {
		return ParseSchedule(file, data)
	}
	if !errors.Is(err, fs.ErrNotExist) {
		return schedule.Schedule{}, Source{}, err
	}
	return f.builtIn(id)
}

func (f Folder) builtIn(id string) (schedule.Schedule, Source, error) {
	data, err := read(f.builtin, fileOf(".", id))
	if errors.Is(err, fs.ErrNotExist) {
		var ids []string
		origins, _ := f.ScheduleIDs()
		for _, o := range origins {
			ids = append(ids, o.ID)
		}
		return schedule.Schedule{}, Source{}, Faults{{File: schedulesDir, Message: show(id) + " is no schedule of this yard and none built in: " + instead(id, ids)}}
	}
	if err != nil {
		return schedule.Schedule{}, Source{}, err
	}
	s, source, err := ParseSchedule(builtinLabel+"/"+id+extension, data)
	if err == nil && s.Basis.Kind == schedule.Maker {
		return schedule.Schedule{}, Source{}, Faults{source.Fault("basis/kind", "kind", "maker, in a schedule that comes with the program: write common-practice")}
	}
	return s, source, err
}

// Origin says where a schedule comes from.
type Origin struct {
	ID      string
	File    string // as in messages
	BuiltIn bool
}

// ScheduleIDs lists the schedules by id, sorted; the yard's own stands in the
// place of a built-in one of the same id.
func (f Folder) ScheduleIDs() ([]Origin, error) {
	own, err := idsIn(f.yard, schedulesDir, schedulesDir)
	if err != nil {
		return nil, err
	}
	builtin, err := idsIn(f.builtin, ".", builtinLabel)
	if err != nil {
		return nil, err
	}
	var origins []Origin
	for _, id := range own {
		origins = append(origins, Origin{ID: id, File: schedulesDir + "/" + id + extension})
	}
	for _, id := range builtin {
		if !slices.Contains(own, id) {
			origins = append(origins, Origin{ID: id, File: builtinLabel + "/" + id + extension, BuiltIn: true})
		}
	}
	slices.SortFunc(origins, func(a, b Origin) int { return strings.Compare(a.ID, b.ID) })
	return origins, nil
}

// For reads what a job is held to, its machine and that machine's schedule,
// and resolves the job against them. An unknown machine is a fault of the job
// sheet, an unknown schedule one of the machine file.
func (f Folder) For(job Job) (Machine, schedule.Schedule, error) {
	m, err := f.Machine(job.Machine)
	if err != nil {
		return Machine{}, schedule.Schedule{}, blame(err, machinesDir, job.Source, "machine")
	}
	s, _, err := f.Schedule(m.Schedule)
	if err != nil {
		return Machine{}, schedule.Schedule{}, blame(err, schedulesDir, m.Source, "schedule")
	}
	return m, s, Resolve(job, m, s)
}

// blame moves the fault of an unknown id from the folder that has no such
// file to the place where the id was written.
func blame(err error, folder string, source Source, path string) error {
	var faults Faults
	if errors.As(err, &faults) && len(faults) == 1 && faults[0].File == folder {
		return Faults{source.Fault(path, path, "%s", faults[0].Message)}
	}
	return err
}

// idsIn lists the ids that a folder has files for, sorted. A folder that is
// not there has none.
func idsIn(files fs.FS, dir, label string) ([]string, error) {
	if files == nil {
		return nil, nil
	}
	entries, err := fs.ReadDir(files, dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("%s: %w", label, err)
	}
	var ids []string
	var faults Faults
	for _, e := range entries {
		name := e.Name()
		id, isYAML := strings.CutSuffix(name, extension)
		switch {
		case e.IsDir(), strings.HasPrefix(name, "."):
		case isYAML && isID(id):
			ids = append(ids, id)
		case isYAML:
			faults = append(faults, Fault{File: label + "/" + name, Message: "the file's name is no id: " + CheckID(id).Error()})
		case strings.HasSuffix(name, ".yml"):
			faults = append(faults, Fault{File: label + "/" + name, Message: "passed over: name the file " + strings.TrimSuffix(name, ".yml") + extension})
		}
	}
	slices.Sort(ids)
	return ids, faults.orNil()
}

// fileOf is the path of an id's file in a folder; "" where the id is none, so
// that it cannot lead out of the folder.
func fileOf(dir, id string) string {
	if !isID(id) {
		return ""
	}
	return path.Join(dir, id+extension)
}

// read reads a file, and no more of it than shows that it is too long.
func read(files fs.FS, name string) ([]byte, error) {
	if files == nil || name == "" {
		return nil, fs.ErrNotExist
	}
	file, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	data, err := io.ReadAll(io.LimitReader(file, MaxFileBytes+1))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return data, nil
}
