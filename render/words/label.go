package words

// LabelTexts is templates/words/label.yaml: the words on a sticker.
type LabelTexts struct {
	What      map[string]string `yaml:"what"` // of a replacement, by task
	Together  []Together        `yaml:"together"`
	Done      Phrase            `yaml:"done"`    // {date} {hours}
	Reading   Phrase            `yaml:"reading"` // {total}
	Estimated string            `yaml:"estimated"`

	NextBoth    Phrase `yaml:"next_both"`    // {hours} {date}
	NextHours   Phrase `yaml:"next_hours"`   // {hours}
	NextDate    Phrase `yaml:"next_date"`    // {date}
	NextNone    string `yaml:"next_none"`    // the task comes once only
	NextReading Phrase `yaml:"next_reading"` // {total}
	NextTotal   string `yaml:"next_total"`
	Whichever   string `yaml:"whichever"`

	Serial  Phrase `yaml:"serial"` // {serial}
	Record  string `yaml:"record"`
	Warning string `yaml:"warning"`
}

// Together is what several tasks, all done on one job, are called in one.
type Together struct {
	Tasks []string `yaml:"tasks"`
	What  string   `yaml:"what"`
}

var label = once[LabelTexts]("label.yaml")

// Label returns the words on a sticker. Callers must not change the lists and
// tables in it.
func Label() LabelTexts { return label() }
