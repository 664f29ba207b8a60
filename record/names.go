package record

import "fmt"

// The small enumerations of a record, numbered as in its bytes; zero is never
// valid where a value is required. Each has String, Valid and MarshalText; the
// words are those of the files that people write.
type (
	Kind        uint8
	Paper       uint8
	MeterState  uint8
	Reason      uint8
	Result      uint8
	Advice      uint8
	OwnerAnswer uint8
	Supplier    uint8
	IssuerKind  uint8
	LeakResult  uint8
	Severity    uint8
	Glycol      uint8
	Sight       uint16 // not 8 bits: a list of bytes would be encoded as a byte string
	Method      uint8
)

const (
	Service    Kind = iota + 1
	Addendum        // adds to an earlier record
	Correction      // stands in the place of one
	Void            // says that one does not count
)

const (
	A4 Paper = iota + 1
	Letter
)

const (
	Running MeterState = iota + 1
	Stopped
	NoMeter
)

const (
	Scheduled Reason = iota + 1
	ForDefect
	Casualty
	Warranty
	Revisit
	LayUp
	Recommission
	Commissioning
	Inspection
)

const (
	Done     Result = iota + 1 // replaced, cleaned, adjusted
	OK                         // inspected, nothing to do
	Watch                      // serviceable, look again
	Defect                     // found and left
	Deferred                   // put off
)

const (
	BeforeUse Advice = iota + 1
	NextService
	Monitor
)

const (
	Agreed OwnerAnswer = iota + 1
	Declined
	Awaiting
)

const (
	ByYard Supplier = iota + 1
	ByCustomer
	UnderWarranty
)

const (
	YardIssuer IssuerKind = iota + 1
	OwnerIssuer
	SurveyorIssuer
)

const (
	NoneSeen LeakResult = iota + 1
	Seen
)

const (
	Note   Severity = iota + 1 // for the record
	Decide                     // needs a reason
	Refuse                     // cannot be
)

const (
	Ethylene Glycol = iota + 1
	Propylene
)

// What was seen in a fluid that was drained.
const (
	SawNothing Sight = iota + 1 // looked, and nothing was seen; stands alone
	SawWater                    // water or coolant, milky oil
	SawMetal
	SawFuel
)

// How oil used was worked out.
const (
	ByLevels  Method = iota + 1
	ByVolumes        // no level was read before draining
)

// Words of each enumeration, in the order of the numbers from 1.
var (
	KindWords       = []string{"service", "addendum", "correction", "void"}
	PaperWords      = []string{"A4", "Letter"}
	MeterStateWords = []string{"running", "stopped", "none"}
	ReasonWords     = []string{"scheduled", "defect", "casualty", "warranty", "revisit", "lay-up", "recommission", "commissioning", "inspection"}
	ResultWords     = []string{"done", "ok", "watch", "defect", "deferred"}
	AdviceWords     = []string{"before-use", "next-service", "monitor"}
	OwnerWords      = []string{"agreed", "declined", "awaiting"}
	SupplierWords   = []string{"yard", "customer", "warranty"}
	IssuerWords     = []string{"yard", "owner", "surveyor"}
	LeakWords       = []string{"none seen", "seen"}
	SeverityWords   = []string{"note", "decide", "refuse"}
	GlycolWords     = []string{"ethylene", "propylene"}
	SightWords      = []string{"nothing", "water", "metal", "fuel"}
	MethodWords     = []string{"levels", "volumes"}
)

func (v Kind) String() string        { return word(KindWords, v) }
func (v Paper) String() string       { return word(PaperWords, v) }
func (v MeterState) String() string  { return word(MeterStateWords, v) }
func (v Reason) String() string      { return word(ReasonWords, v) }
func (v Result) String() string      { return word(ResultWords, v) }
func (v Advice) String() string      { return word(AdviceWords, v) }
func (v OwnerAnswer) String() string { return word(OwnerWords, v) }
func (v Supplier) String() string    { return word(SupplierWords, v) }
func (v IssuerKind) String() string  { return word(IssuerWords, v) }
func (v LeakResult) String() string  { return word(LeakWords, v) }
func (v Severity) String() string    { return word(SeverityWords, v) }
func (v Glycol) String() string      { return word(GlycolWords, v) }
func (v Sight) String() string       { return word(SightWords, v) }
func (v Method) String() string      { return word(MethodWords, v) }

// The texts for JSON are the words; nothing for a zero value, which is absent.
func (v Kind) MarshalText() ([]byte, error)        { return wordText(KindWords, v) }
func (v Paper) MarshalText() ([]byte, error)       { return wordText(PaperWords, v) }
func (v MeterState) MarshalText() ([]byte, error)  { return wordText(MeterStateWords, v) }
func (v Reason) MarshalText() ([]byte, error)      { return wordText(ReasonWords, v) }
func (v Result) MarshalText() ([]byte, error)      { return wordText(ResultWords, v) }
func (v Advice) MarshalText() ([]byte, error)      { return wordText(AdviceWords, v) }
func (v OwnerAnswer) MarshalText() ([]byte, error) { return wordText(OwnerWords, v) }
func (v Supplier) MarshalText() ([]byte, error)    { return wordText(SupplierWords, v) }
func (v IssuerKind) MarshalText() ([]byte, error)  { return wordText(IssuerWords, v) }
func (v LeakResult) MarshalText() ([]byte, error)  { return wordText(LeakWords, v) }
func (v Severity) MarshalText() ([]byte, error)    { return wordText(SeverityWords, v) }
func (v Glycol) MarshalText() ([]byte, error)      { return wordText(GlycolWords, v) }
func (v Sight) MarshalText() ([]byte, error)       { return wordText(SightWords, v) }
func (v Method) MarshalText() ([]byte, error)      { return wordText(MethodWords, v) }

func word[T ~uint8 | ~uint16](words []string, v T) string {
	if v == 0 || int(v) > len(words) {
		return fmt.Sprintf("unknown (%d)", v)
	}
	return words[v-1]
}

func wordText[T ~uint8 | ~uint16](words []string, v T) ([]byte, error) {
	if v == 0 {
		return nil, nil
	}
	return []byte(word(words, v)), nil
}
