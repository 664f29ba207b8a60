package historytest

// Judgement is a history in the words of the library's files.
type Judgement struct {
	Exit     int                `yaml:"exit"`
	AsStand  bool               `yaml:"as_they_stand,omitempty"`
	Aside    []string           `yaml:"aside,omitempty"` // "NAME: why"
	Machines []MachineJudgement `yaml:"machines"`
}

// MachineJudgement is one machine.
type MachineJudgement struct {
	Serial    string                   `yaml:"serial"`
	Exit      int                      `yaml:"exit"`
	Sentence  string                   `yaml:"sentence"`
	Chains    []string                 `yaml:"chains"`           // "e1 e2 e3" in order
	Tails     []string                 `yaml:"tails"`            // "e3: open", "e3: until 2026-05-01 by list"
	Counts    map[string]string        `yaml:"counts,omitempty"` // of those that do not simply count
	Faults    []string                 `yaml:"faults,omitempty"` // "CODE of e3, against e2, missing 2", worst first
	Tasks     map[string]TaskJudgement `yaml:"tasks"`
	Exists    map[string]string        `yaml:"exists,omitempty"` // "from 2024-01-01 (cites), to 2024-05-01 (cited-by)"
	Stands    *StandsJudgement         `yaml:"stands,omitempty"`
	Questions []string                 `yaml:"questions,omitempty"` // "code: e1 e2"
	Match     string                   `yaml:"serial_match,omitempty"`
}

// TaskJudgement is how one task was kept.
type TaskJudgement struct {
	Done    []string `yaml:"done,omitempty"` // "e2: overdue, 37 h, -10 d"
	Stated  string   `yaml:"stated,omitempty"`
	Now     string   `yaml:"now"`
	Overdue string   `yaml:"overdue"` // "37 of 437.4 h"
	Inside  string   `yaml:"inside"`  // "91.5 %"
	Waits   []string `yaml:"waits,omitempty"`
	By      []string `yaml:"by,omitempty"` // schedules, when more than one
}

// StandsJudgement is where the machine stood on the day that is asked about, by task.
type StandsJudgement struct {
	Hours string            `yaml:"hours"`   // "at 850, from 812.6 to 901"
	Of    string            `yaml:"records"` // "2 shown of 3"
	Shown map[string]string `yaml:"shown"`
	All   map[string]string `yaml:"all"`
}
