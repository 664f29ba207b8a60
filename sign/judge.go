package sign

// Judgement is what a record's signature is worth, given the key and what is known
// of the date. Its zero value is none of the answers. A larger one is worse.
type Judgement int

// The answers of [Judge].
const (
	Good      Judgement = iota + 1 // the key counts for the record
	GoodSaySo                      // it counts, and the state of the key has to be said
	NotGood                        // it does not count for the record
	NotKnown                       // nobody that the reader has named
)

// Judge says what a key's signature is worth under a record that is dated that day
// by its own word. noLaterThan is the day by which something other than the signer
// shows that the record existed: a log of receipt, another signer's record that
// cites it; nil where the date is only claimed.
//
//	state of the key              record dated     shown to exist before   answer
//	active                        any day          -                       good
//	not yet, first day D          before D         yes or no               not good
//	                              D or later       no                      good
//	                              D or later       yes                     good, say so
//	retired from D                before D         yes                     good
//	                              before D         no                      good, say so
//	                              D or later       yes or no               not good
//	compromised from D            before D         yes                     good, say so
//	                              before D         no                      not good
//	                              D or later       yes or no               not good
//	unknown                       any day          yes or no               not known
//
// "Before" is before D. Who holds a compromised key can write any date, so a date
// that is only claimed is nothing; a retired key is in nobody else's hands. A record
// dated on or after D of which others show that it was there before has a date that
// is not true; under a key that was to begin that day this has to be said, under the
// others it counts no more than its date. Of several states the worst answer holds.
func Judge(key Standing, dated Day, noLaterThan *Day) Judgement {
	if !key.Known() {
		return judgements[judgedCase{StateUnknown, false, false}]
	}
	worst := judgements[judgedCase{StateActive, false, false}]
	for state, from := range key.turns() {
		worst = max(worst, judgements[judgedCase{state, dated < from, noLaterThan != nil && *noLaterThan < from}])
	}
	return worst
}

// judgedCase is a row of the table.
type judgedCase struct {
	state       KeyState
	datedBefore bool // the day from which the state holds, or ends for NotYet
	shownBefore bool
}

var judgements = map[judgedCase]Judgement{
	{StateActive, false, false}:      Good,
	{StateActive, false, true}:       Good,
	{StateActive, true, false}:       Good,
	{StateActive, true, true}:        Good,
	{StateNotYet, true, false}:       NotGood,
	{StateNotYet, true, true}:        NotGood,
	{StateNotYet, false, false}:      Good,
	{StateNotYet, false, true}:       GoodSaySo,
	{StateRetired, true, true}:       Good,
	{StateRetired, true, false}:      GoodSaySo,
	{StateRetired, false, true}:      NotGood,
	{StateRetired, false, false}:     NotGood,
	{StateCompromised, true, true}:   GoodSaySo,
	{StateCompromised, true, false}:  NotGood,
	{StateCompromised, false, true}:  NotGood,
	{StateCompromised, false, false}: NotGood,
	{StateUnknown, false, false}:     NotKnown,
	{StateUnknown, false, true}:      NotKnown,
	{StateUnknown, true, false}:      NotKnown,
	{StateUnknown, true, true}:       NotKnown,
}
