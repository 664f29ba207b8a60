package words

// LabelTexts is templates/words/label.yaml: the words on a sticker.
type LabelTexts struct {
	What      map[string]string `json:"what"` // of a replacement, by task
	Together  []Together        `json:"together"`
	Done      Phrase            `json:"done"`    // {date} {hours}
	Reading   Phrase            `json:"reading"` // {total}
	Estimated string            `json:"estimated"`

	NextBoth    Phrase `json:"next_both"`    // {hours} {date}
	NextHours   Phrase `json:"next_hours"`   // {hours}
	NextDate    Phrase `json:"next_date"`    // {date}
	NextNone    string `json:"next_none"`    // the task comes once only
	NextReading Phrase `json:"next_reading"` // {total}
	NextTotal   string `json:"next_total"`
	Whichever   string `json:"whichever"`

	Serial  Phrase `json:"serial"` // {serial}
	Record  string `json:"record"`
	Warning string `json:"warning"`
}

// Together is what several tasks, all done on one job, are called in one.
type Together struct {
	Tasks []string `json:"tasks"`
	What  string   `json:"what"`
}

var label = once[LabelTexts]("label.json")

// Label returns the words on a sticker. Callers must not change the lists and
// tables in it.
func Label() LabelTexts { return label() }
