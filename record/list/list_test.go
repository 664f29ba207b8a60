package list_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/fxamacker/cbor/v2"
	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
)

// example is a list with all that one may hold.
func example() *list.List {
	return &list.List{
		Format:  list.Format,
		Machine: list.Machine{Make: "Corrin", Model: "4T-75", Serial: "0045120", Vessel: "Gannet", Hull: "ZZ-ELS04471A626"},
		Issuer:  record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer, Contact: "office@ellery-slip.example", Address: "Quay Road, Port Ellery"},
		Ends:    []list.End{{Number: 1, ID: record.ID{0x0a}}, {Number: 7, ID: record.ID{0xa0}}},
		Count:   8, Until: quantity.FromYMD(2026, 11, 2), For: "Marlin Cover, claim 4471", IssuedAt: 1_793_637_000,
	}
}

// empty is the shortest list: no record is held.
func empty() *list.List {
	return &list.List{
		Format: list.Format, Machine: list.Machine{Make: "Corrin", Model: "4T-75", Serial: "0045120"},
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer},
		Until:  quantity.FromYMD(2026, 11, 2), For: "Marlin Cover, claim 4471", IssuedAt: 1_793_637_000,
	}
}

func encoded(t testing.TB, l *list.List) []byte {
	t.Helper()
	data, err := list.Encode(l)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// emptyBytes is the empty list, put together by hand by RFC 8949.
const emptyBytes = "a6" + // map of 6
	"0101" + // 1: 1
	"02a3" + "0166" + "436f7272696e" + "0265" + "34542d3735" + "0367" + "30303435313230" + // 2: Corrin, 4T-75, 0045120
	"03a2" + "0174" + "456c6c65727920536c697020426f617479617264" + "0201" + // 3: Ellery Slip Boatyard, yard
	"06195117" + // 6: day 20759
	"077818" + "4d61726c696e20436f7665722c20636c61696d2034343731" + // 7: Marlin Cover, claim 4471
	"081a6ae8ba88" // 8: 1793637000

func TestBytesByHand(t *testing.T) {
	if got := hex.EncodeToString(encoded(t, empty())); got != emptyBytes {
		t.Errorf("%s\nwant\n%s", got, emptyBytes)
	}
}

func TestThereAndBack(t *testing.T) {
	for _, l := range []*list.List{example(), empty()} {
		got, err := list.Decode(encoded(t, l))
		if err != nil || !reflect.DeepEqual(got, l) {
			t.Errorf("%+v, %v; want %+v", got, err, l)
		}
	}
}

// TestAnyList: what is encoded is read again, the ends in the one order.
func TestAnyList(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := example()
		l.Ends, l.Count = nil, 0
		for i := range rapid.IntRange(0, list.MaxEnds).Draw(t, "chains") {
			l.Ends = append(l.Ends, list.End{Number: rapid.Uint32Range(1, 9999).Draw(t, "number"), ID: sha256.Sum256([]byte{byte(i)})})
			l.Count += rapid.Uint32Range(1, l.Ends[i].Number).Draw(t, "held")
		}
		given := slices.Clone(l.Ends)
		data, err := list.Encode(l)
		if err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(l.Ends, given) {
			t.Fatal("the list itself was changed")
		}
		slices.SortFunc(l.Ends, func(a, b list.End) int { return bytes.Compare(a.ID[:], b.ID[:]) })
		got, err := list.Decode(data)
		if err != nil || !slices.Equal(got.Ends, l.Ends) || got.Count != l.Count {
			t.Fatalf("%+v, %v", got, err)
		}
	})
}

func TestRefused(t *testing.T) {
	long := strings.Repeat("x", record.MaxReason+1)
	for _, c := range []struct {
		says   string
		change func(*list.List)
	}{
		{"format", func(l *list.List) { l.Format = 2 }},
		{"machine make: is empty", func(l *list.List) { l.Machine.Make = "" }},
		{"machine model: is empty", func(l *list.List) { l.Machine.Model = "" }},
		{"machine serial: is empty", func(l *list.List) { l.Machine.Serial = "" }},
		{"machine serial: begins or ends", func(l *list.List) { l.Machine.Serial = " 1" }},
		{"vessel: invisible", func(l *list.List) { l.Machine.Vessel = "Gan\u200bnet" }},
		{"hull: 121 characters", func(l *list.List) { l.Machine.Hull = long[:121] }},
		{"issuer name: is empty", func(l *list.List) { l.Issuer.Name = "" }},
		{"issuer kind: unknown value 0", func(l *list.List) { l.Issuer.Kind = 0 }},
		{"issuer kind: unknown value 4", func(l *list.List) { l.Issuer.Kind = 4 }},
		{"issuer contact: invisible", func(l *list.List) { l.Issuer.Contact = "a\nb" }},
		{"issuer address: 121", func(l *list.List) { l.Issuer.Address = long[:121] }},
		{"ends: 65 chains", func(l *list.List) { l.Ends = make([]list.End, 65) }},
		{"end 2 number: 0 is outside", func(l *list.List) { l.Ends[1].Number = 0 }},
		{"end 1 number: 1000001", func(l *list.List) { l.Ends[0].Number = 1_000_001 }},
		{"end 2: is there twice", func(l *list.List) { l.Ends[1].ID = l.Ends[0].ID }},
		{"count: 1 records in 2 chains", func(l *list.List) { l.Count = 1 }},
		{"count: 9 records in 2 chains that end at numbers of 8 together", func(l *list.List) { l.Count = 9 }},
		{"count: 8 records in 0 chains", func(l *list.List) { l.Ends = nil }},
		{"until: 84006 is outside", func(l *list.List) { l.Until = quantity.MaxDate + 1 }},
		{"until: 2026-11-04 is after the list was signed, on 2026-11-02", func(l *list.List) { l.Until += 2 }},
		{"for: is empty", func(l *list.List) { l.For = "" }},
		{"for: 201 characters", func(l *list.List) { l.For = long }},
		{"issued at: -1", func(l *list.List) { l.IssuedAt = -1 }},
	} {
		l := example()
		c.change(l)
		if data, err := list.Encode(l); err == nil || !strings.HasPrefix(err.Error(), c.says) {
			t.Errorf("%q: %x, %v", c.says, data, err)
		}
	}
	l := example()
	l.Until++ // where the yard is, the next day has begun
	encoded(t, l)
}

// TestStrict: bytes that a lenient reader would take for the example, or nearly, are
// refused.
func TestStrict(t *testing.T) {
	const head = "a6" + "0101"
	whole := func(from, to string) string {
		t.Helper()
		if strings.Count(emptyBytes, from) != 1 {
			t.Fatalf("%s is not in the bytes once", from)
		}
		return strings.Replace(emptyBytes, from, to, 1)
	}
	full := hex.EncodeToString(encoded(t, example()))
	for _, c := range []struct {
		what, bytes string
		plainly     bool // ErrNotCanonical itself
	}{
		{"nothing", "", false},
		{"null", "f6", false},
		{"unknown key 9", "a7" + emptyBytes[2:] + "0900", false},
		{"unknown key 0", "a7" + "0000" + emptyBytes[2:], false},
		{"text key", "a7" + emptyBytes[2:] + "616100", false},
		{"key twice", "a7" + "0101" + emptyBytes[2:], false},
		{"wrong order", "a6" + emptyBytes[6:] + "0101", true},
		{"indefinite map", "bf" + emptyBytes[2:] + "ff", false},
		{"indefinite text", whole("0367"+"30303435313230", "037f67"+"30303435313230ff"), false},
		{"longer integer", whole(head, "a6"+"011801"), true},
		{"longer length", whole("0367"+"30303435313230", "037807"+"30303435313230"), true},
		{"float", whole(head, "a6"+"01f93c00"), false},
		{"float date", whole("06195117", "06fb40d445c000000000"), false},
		{"tag", "c1" + emptyBytes, false},
		{"tag inside", whole("081a6ae8ba88", "08c11a6ae8ba88"), false},
		{"null ends", "a7" + strings.Replace(emptyBytes[2:], "06195117", "04f6"+"06195117", 1), true},
		{"no ends written out", "a7" + strings.Replace(emptyBytes[2:], "06195117", "0480"+"06195117", 1), true},
		{"count of 0 written out", "a7" + strings.Replace(emptyBytes[2:], "06195117", "0500"+"06195117", 1), true},
		{"null text", whole("0367"+"30303435313230", "03f6"), true},
		{"bytes for text", whole("0367"+"30303435313230", "0347"+"30303435313230"), false},
		{"no UTF-8", whole("0367"+"30303435313230", "0367"+"303034353132ff"), false},
		{"cut short", emptyBytes[:len(emptyBytes)-2], false},
		{"more behind", emptyBytes + "00", false},
		{"short id", strings.Replace(full, "5820a0"+strings.Repeat("00", 31), "581fa0"+strings.Repeat("00", 30), 1), true},
		{"long id", strings.Replace(full, "5820a0"+strings.Repeat("00", 31), "5821a0"+strings.Repeat("00", 32), 1), true},
		{"id as a list of numbers", strings.Replace(full, "5820a0"+strings.Repeat("00", 31), "982018a0"+strings.Repeat("00", 31), 1), true},
		{"other format", whole(head, "a6"+"0102"), false},
	} {
		if c.bytes == emptyBytes || c.bytes == full {
			t.Fatalf("%s: nothing is changed", c.what)
		}
		data, err := hex.DecodeString(c.bytes)
		if err != nil {
			t.Fatal(err)
		}
		l, err := list.Decode(data)
		if err == nil || c.plainly && !errors.Is(err, list.ErrNotCanonical) {
			t.Errorf("%s: %+v, %v", c.what, l, err)
		}
	}
	// The ends in another order than that of their ids.
	l := example()
	slices.Reverse(l.Ends)
	mode, err := cbor.CoreDetEncOptions().EncMode()
	if err != nil {
		t.Fatal(err)
	}
	unsorted, err := mode.Marshal(l)
	if err != nil {
		t.Fatal(err)
	}
	if got, err := list.Decode(unsorted); err == nil || !strings.Contains(err.Error(), "not in the order") {
		t.Errorf("unsorted ends: %+v, %v", got, err)
	}
}

func TestTooLong(t *testing.T) {
	if _, err := list.Decode(make([]byte, list.MaxBytes+1)); err == nil || !strings.Contains(err.Error(), "8193 bytes") {
		t.Errorf("%v", err)
	}
	l := example()
	l.Ends, l.Count = nil, 0
	for i := range list.MaxEnds {
		l.Ends = append(l.Ends, list.End{Number: 1_000, ID: sha256.Sum256([]byte{byte(i)})})
	}
	l.Count = list.MaxEnds * 1_000
	wide := strings.Repeat("\u6f01", record.MaxText) // three bytes each
	l.Machine = list.Machine{Make: wide, Model: wide, Serial: wide, Vessel: wide, Hull: wide}
	l.Issuer.Name, l.Issuer.Contact, l.Issuer.Address, l.For = wide, wide, wide, strings.Repeat("\u6f01", record.MaxReason)
	t.Logf("the longest list takes %d bytes of %d", len(encoded(t, l)), list.MaxBytes)
}

// FuzzDecode: nothing panics, and what is read has one encoding, the one it was read
// from.
func FuzzDecode(f *testing.F) {
	f.Add(encoded(f, example()))
	f.Add(encoded(f, empty()))
	f.Add([]byte{0xa0})
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := list.Decode(data)
		if err != nil {
			return
		}
		if again, err := list.Encode(l); err != nil || !bytes.Equal(again, data) {
			t.Fatalf("%x\nis encoded again as\n%x, %v", data, again, err)
		}
	})
}

// TestEveryByteChanged: of all changes of one byte those that can be read at all are
// other lists with an encoding of their own.
func TestEveryByteChanged(t *testing.T) {
	original := encoded(t, example())
	read := 0
	for i := range original {
		for change := 1; change < 256; change++ {
			data := bytes.Clone(original)
			data[i] ^= byte(change)
			l, err := list.Decode(data)
			if err != nil {
				continue
			}
			read++
			if reflect.DeepEqual(l, example()) || !bytes.Equal(encoded(t, l), data) {
				t.Fatalf("byte %d ^ %02x: the same list, or two encodings", i, change)
			}
		}
	}
	if read == 0 || read == 255*len(original) {
		t.Errorf("%d of %d changes give other lists", read, 255*len(original))
	}
}
