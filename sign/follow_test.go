package sign

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The keys are made from their seeds, see testKey.
func renewal(t *testing.T, by, subject, next byte, from, stated Day, number uint32) Statement {
	return state(t, testKey(t, by), StatementContent{Kind: Renew, Subject: testKey(t, subject).Public(), Other: testKey(t, next).Public(),
		From: from, StatedAt: int64(stated) * secondsADay, Number: number})
}

func revocation(t *testing.T, by, subject byte, from Day, why RevokedWhy, number uint32) Statement {
	return state(t, testKey(t, by), StatementContent{Kind: Revoke, Subject: testKey(t, subject).Public(),
		From: from, Why: why, StatedAt: int64(from+1000) * secondsADay, Number: number})
}

func recovery(t *testing.T, by, subject, key byte, number uint32) Statement {
	return state(t, testKey(t, by), StatementContent{Kind: NamesRecovery, Subject: testKey(t, subject).Public(),
		Other: testKey(t, key).Public(), StatedAt: 1, Number: number})
}

// The tables at With, in full. The reader trusts key 1; 2 and 3 are new keys, 8 the
// recovery key, 9 a stranger's.
func TestWith(t *testing.T) {
	const a, b, c, safe, stranger = 1, 2, 3, 8, 9
	renew := func(number uint32, next byte, stated Day) Statement {
		return renewal(t, a, a, next, stated, stated, number)
	}
	own := func(change func(*Trusted)) TrustList {
		entry := Trusted{Name: "Ellery Slip Boatyard", Key: testKey(t, a).Public()}
		if change != nil {
			change(&entry)
		}
		return TrustList{entry}
	}
	for _, row := range []struct {
		name       string
		list       TrustList
		statements []Statement
		want       string // key: from-until revocation, for each of 1, 2, 3 that is known
		ignored    []string
	}{
		{"nothing", own(nil), nil, "1:-", nil},
		// Who may state what.
		{"renewal by the key itself", own(nil), []Statement{renew(1, b, 100)}, "1:-100 2:100-", nil},
		{"renewal by another", own(nil), []Statement{renewal(t, stranger, a, b, 100, 100, 1)}, "1:-", []string{"only the key itself may state that"}},
		{"renewal by the recovery key", own(nil), []Statement{recovery(t, a, a, safe, 1), renewal(t, safe, a, b, 100, 100, 2)}, "1:-", []string{"only the key itself may state that"}},
		{"recovery key named by another", own(nil), []Statement{recovery(t, stranger, a, safe, 1), revocation(t, safe, a, 50, WhyRetired, 2)}, "1:-",
			[]string{"only the key itself may state that", "neither that key nor a recovery key"}},
		{"revocation by the key itself", own(nil), []Statement{revocation(t, a, a, 50, WhyRetired, 1)}, "1:-/50 retired", nil},
		{"revocation by the recovery key", own(nil), []Statement{recovery(t, a, a, safe, 1), revocation(t, safe, a, 50, WhyCompromised, 2)}, "1:-/50 compromised", nil},
		{"revocation by a recovery key not named", own(nil), []Statement{revocation(t, safe, a, 50, WhyCompromised, 2)}, "1:-", []string{"neither that key nor a recovery key"}},
		{"revocation by the recovery key of another key", own(nil), []Statement{renew(1, b, 100), recovery(t, b, b, safe, 1), revocation(t, safe, a, 50, WhyCompromised, 2)}, "1:-100 2:100-",
			[]string{"neither that key nor a recovery key"}},
		{"about a stranger's key", own(nil), []Statement{renewal(t, stranger, stranger, b, 100, 100, 1)}, "1:-", []string{"a key that you have not named"}},
		// What of several counts.
		{"a revocation is not taken back", own(nil), []Statement{revocation(t, a, a, 50, WhyCompromised, 1), revocation(t, a, a, 90, WhyRetired, 2)}, "1:-/50 compromised", nil},
		{"the earlier day and the worse reason", own(nil), []Statement{revocation(t, a, a, 50, WhyRetired, 1), revocation(t, a, a, 90, WhyCompromised, 2)}, "1:-/50 compromised", nil},
		{"two renewals", own(nil), []Statement{renew(1, b, 100), renew(2, c, 90)}, "1:-90 3:90-", []string{"statement 2 of the same key is newer"}},
		{"two renewals of one number", own(nil), []Statement{renew(1, b, 100), renew(1, c, 100)}, "1:-", []string{"two renewals numbered 1", "two renewals numbered 1"}},
		{"and no older one", own(nil), []Statement{renew(1, b, 90), renew(2, b, 100), renew(2, c, 100)}, "1:-",
			[]string{"is newer", "two renewals numbered 2", "two renewals numbered 2"}},
		{"but a newer one", own(nil), []Statement{renew(1, b, 90), renew(1, c, 90), renew(2, c, 100)}, "1:-100 3:100-",
			[]string{"two renewals numbered 1", "two renewals numbered 1"}},
		{"renewal, then retired", own(nil), []Statement{renew(1, b, 100), revocation(t, a, a, 60, WhyRetired, 2)}, "1:-100/60 retired 2:100-", nil},
		{"retired, then renewal", own(nil), []Statement{revocation(t, a, a, 100, WhyRetired, 1), renew(2, b, 60)}, "1:-/100 retired", []string{"numbered after the revocation"}},
		{"renewal before the key was compromised", own(nil), []Statement{renew(1, b, 99), revocation(t, a, a, 100, WhyCompromised, 2)}, "1:-99/100 compromised 2:99-", nil},
		{"renewal stated on that day", own(nil), []Statement{renew(1, b, 100), revocation(t, a, a, 100, WhyCompromised, 2)}, "1:-/100 compromised", []string{"not stated before"}},
		{"renewal dated back, numbered after", own(nil), []Statement{renew(2, b, 60), revocation(t, a, a, 100, WhyCompromised, 1)}, "1:-/100 compromised", []string{"numbered after the revocation"}},
		{"renewal dated back, numbered as the revocation", own(nil), []Statement{renew(1, b, 60), revocation(t, a, a, 100, WhyCompromised, 1)}, "1:-/100 compromised", []string{"has the same number"}},
		{"renewal dated back, numbered as the honest one", own(nil), []Statement{renew(1, b, 60), renew(1, c, 60), revocation(t, a, a, 100, WhyCompromised, 2)}, "1:-/100 compromised",
			[]string{"has the same number", "has the same number"}},
		{"renewal dated back, numbered as the recovery key", own(nil), []Statement{recovery(t, a, a, safe, 1), renew(1, c, 60), revocation(t, a, a, 100, WhyCompromised, 2)}, "1:-/100 compromised", []string{"has the same number"}},
		{"a thief's after the honest one", own(nil), []Statement{renew(1, b, 60), revocation(t, a, a, 100, WhyCompromised, 2), renew(3, c, 120)}, "1:-60/100 compromised 2:60-", []string{"numbered after"}},
		// The reader's own list.
		{"the reader says compromised", own(func(e *Trusted) { e.Revoked = &Revocation{100, WhyCompromised} }), []Statement{renew(1, b, 60)}, "1:-/100 compromised", []string{"you have that key as compromised"}},
		{"the reader says retired", own(func(e *Trusted) { e.Revoked = &Revocation{100, WhyRetired} }), []Statement{renew(1, b, 100)}, "1:-100/100 retired 2:100-", nil},
		{"and it is renewed after", own(func(e *Trusted) { e.Revoked = &Revocation{100, WhyRetired} }), []Statement{renew(1, b, 101)}, "1:-/100 retired", []string{"after you have that key as retired"}},
		{"the reader's revocation is the stricter", own(func(e *Trusted) { e.Revoked = &Revocation{40, WhyCompromised} }), []Statement{revocation(t, a, a, 90, WhyRetired, 1)}, "1:-/40 compromised", nil},
		{"the statement is", own(func(e *Trusted) { e.Revoked = &Revocation{90, WhyRetired} }), []Statement{revocation(t, a, a, 40, WhyCompromised, 1)}, "1:-/40 compromised", nil},
		{"the reader's dates hold for the new key", own(func(e *Trusted) { e.From, e.Until = new(Day(110)), new(Day(200)) }), []Statement{renew(1, b, 100)}, "1:110-100 2:110-200", nil},
		{"the reader's last day is earlier", own(func(e *Trusted) { e.Until = new(Day(80)) }), []Statement{renew(1, b, 100)}, "1:-80 2:100-80", nil},
		// Further along.
		{"three keys", own(nil), []Statement{renew(1, b, 100), renewal(t, b, b, c, 200, 200, 1)}, "1:-100 2:100-200 3:200-", nil},
		{"the second is revoked", own(nil), []Statement{renew(1, b, 100), renewal(t, b, b, c, 200, 200, 1), revocation(t, b, b, 150, WhyCompromised, 2)}, "1:-100 2:100-/150 compromised", []string{"not stated before"}},
		{"the first is compromised, the second was renewed", own(nil), []Statement{renew(1, b, 100), renewal(t, b, b, c, 200, 200, 1), revocation(t, a, a, 50, WhyCompromised, 2)}, "1:-/50 compromised",
			[]string{"not stated before", "a key that you have not named"}},
		{"in a ring", own(nil), []Statement{renew(1, b, 100), renewal(t, b, b, c, 200, 200, 1), renewal(t, c, c, a, 300, 300, 1)}, "1:-100 2:100-200 3:200-300", nil},
		{"in a ring without the first", own(nil), []Statement{renew(1, b, 100), renewal(t, b, b, c, 200, 200, 1), renewal(t, c, c, b, 300, 300, 1)}, "1:-100 2:100-200 3:200-300", nil},
	} {
		t.Run(row.name, func(t *testing.T) {
			ring, ignored := row.list.With(row.statements)
			var got []string
			for seed := byte(a); seed <= c; seed++ {
				s, ok := ring.Lookup(testKey(t, seed).Public())
				if ok != s.Known() {
					t.Error("known and not")
				}
				if !ok {
					continue
				}
				if s.Trusted.Name != "Ellery Slip Boatyard" || s.Root != testKey(t, a).Public() || s.Trusted.Key != testKey(t, seed).Public() {
					t.Errorf("%+v", s)
				}
				got = append(got, string('0'+seed)+":"+window(s.Trusted))
			}
			if text := strings.Join(got, " "); text != row.want {
				t.Errorf("%s\nwant %s", text, row.want)
			}
			if len(ignored) != len(row.ignored) {
				t.Fatalf("ignored: %v\nwant %q", ignored, row.ignored)
			}
			for i, want := range row.ignored {
				if !slices.ContainsFunc(ignored, func(i Ignored) bool { return strings.Contains(i.Reason, want) }) {
					t.Errorf("%q is not said in %v, row %d", want, ignored, i)
				}
			}
			// Any order, each twice: the same answer.
			twice := append(slices.Clone(row.statements), row.statements...)
			rand.Shuffle(len(twice), func(i, j int) { twice[i], twice[j] = twice[j], twice[i] })
			again, ignoredAgain := row.list.With(twice)
			if !reflect.DeepEqual(again, ring) || !reflect.DeepEqual(ignoredAgain, ignored) {
				t.Errorf("another order: %v\n%v", again, ring)
			}
		})
	}
}

// window is "from-until/day why".
func window(t Trusted) string {
	text := func(d *Day) string {
		if d == nil {
			return ""
		}
		return strconv.Itoa(int(*d))
	}
	w := text(t.From) + "-" + text(t.Until)
	if t.Revoked != nil {
		w += "/" + text(&t.Revoked.From) + " " + string(t.Revoked.Why)
	}
	return w
}

// Several entries: whose is a key to which more than one leads.
func TestWithSeveralEntries(t *testing.T) {
	key := func(seed byte) PublicKey { return testKey(t, seed).Public() }
	slip, harbour := "Ellery Slip Boatyard", "Harbour Electrics"
	renew12, renew13 := renewal(t, 1, 1, 2, 100, 100, 1), renewal(t, 1, 1, 3, 100, 100, 1)
	for _, row := range []struct {
		name       string
		list       TrustList
		statements []Statement
		want       map[byte]string // name and root; "" unknown
	}{
		{"another signer renews to the same key", TrustList{{Name: slip, Key: key(1)}, {Name: harbour, Key: key(4)}},
			[]Statement{renew12, renewal(t, 4, 4, 2, 100, 100, 1)}, map[byte]string{1: slip + " 1", 4: harbour + " 4", 2: ""}},
		{"and what follows from it is unknown, too", TrustList{{Name: slip, Key: key(1)}, {Name: harbour, Key: key(4)}},
			[]Statement{renew12, renewal(t, 2, 2, 3, 150, 150, 1), renewal(t, 4, 4, 2, 100, 100, 1)}, map[byte]string{2: "", 3: ""}},
		{"another signer renews to a key that the reader named", TrustList{{Name: slip, Key: key(1)}, {Name: harbour, Key: key(4)}},
			[]Statement{renewal(t, 4, 4, 1, 100, 100, 1)}, map[byte]string{1: slip + " 1", 4: harbour + " 4"}},
		{"the reader named both keys alike", TrustList{{Name: slip, Key: key(1)}, {Name: slip, Key: key(3)}},
			[]Statement{renew13}, map[byte]string{1: slip + " 1", 3: slip + " 1"}},
		{"in the other order", TrustList{{Name: slip, Key: key(3)}, {Name: slip, Key: key(1)}},
			[]Statement{renew13}, map[byte]string{1: slip + " 1", 3: slip + " 1"}},
		{"and what follows is the same signer's", TrustList{{Name: slip, Key: key(3)}, {Name: slip, Key: key(1)}},
			[]Statement{renew13, renewal(t, 3, 3, 5, 200, 200, 1)}, map[byte]string{1: slip + " 1", 3: slip + " 1", 5: slip + " 1"}},
		{"in a ring", TrustList{{Name: slip, Key: key(3)}, {Name: slip, Key: key(1)}},
			[]Statement{renew13, renewal(t, 3, 3, 1, 200, 200, 1)}, map[byte]string{1: slip + " 3", 3: slip + " 3"}},
		{"the reader named both keys, otherwise", TrustList{{Name: slip, Key: key(1)}, {Name: harbour, Key: key(3)}},
			[]Statement{renew13}, map[byte]string{1: slip + " 1", 3: harbour + " 3"}},
	} {
		t.Run(row.name, func(t *testing.T) {
			ring, _ := row.list.With(row.statements)
			for seed, want := range row.want {
				s, ok := ring.Lookup(key(seed))
				got := ""
				for root := byte(1); ok && root < 10; root++ {
					if s.Root == key(root) {
						got = s.Trusted.Name + " " + string('0'+root)
					}
				}
				if got != want {
					t.Errorf("key %d: %q, want %q", seed, got, want)
				}
			}
		})
	}
}

// No revocation, whoever signs it, makes any key count for more. (Where one key has
// several renewals it may: a thief's later one is out, and the honest one holds.)
func TestRevocationsNeverHelp(t *testing.T) {
	pool := []Statement{
		renewal(t, 1, 1, 2, 100, 100, 1), renewal(t, 2, 2, 3, 200, 200, 1), recovery(t, 1, 1, 8, 1), recovery(t, 2, 2, 8, 2),
	}
	revocations := []Statement{
		revocation(t, 1, 1, 50, WhyCompromised, 2), revocation(t, 8, 1, 110, WhyCompromised, 3), revocation(t, 1, 1, 90, WhyRetired, 1),
		revocation(t, 8, 2, 150, WhyRetired, 4), revocation(t, 9, 1, 1, WhyCompromised, 9), revocation(t, 3, 3, 150, WhyCompromised, 1),
	}
	list := TrustList{{Name: "Ellery Slip Boatyard", Key: testKey(t, 1).Public()}}
	for picked := range 1 << len(pool) {
		var with []Statement
		for i, s := range pool {
			if picked>>i&1 == 1 {
				with = append(with, s)
			}
		}
		before, _ := list.With(with)
		for _, r := range revocations {
			after, _ := list.With(append(with[:len(with):len(with)], r))
			for seed := byte(1); seed < 4; seed++ {
				was, _ := before.Lookup(testKey(t, seed).Public())
				is, _ := after.Lookup(testKey(t, seed).Public())
				for day := Day(0); day < 300; day += 10 {
					if x, y := Judge(was, day, nil), Judge(is, day, nil); y < x {
						t.Errorf("%d, %s: key %d on day %d: %d from %d", picked, r, seed, day, y, x)
					}
				}
			}
		}
	}
}
