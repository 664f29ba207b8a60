package sign

import (
	"fmt"
	"testing"
)

// The table at Judge, in full: D is day 100. "before" is day 99, which is also the
// day by which a record is shown to exist; the other is D itself.
func TestJudge(t *testing.T) {
	const d, before, long = Day(100), Day(99), Day(1000)
	key := PublicKey{9}
	known := func(t Trusted) Standing {
		t.Key = key
		return Standing{Trusted: t, Entry: t, Root: key}
	}
	revoked := func(why RevokedWhy) Standing { return known(Trusted{Revoked: &Revocation{d, why}}) }
	shown := func(day Day) *Day { return &day }
	for _, c := range []struct {
		state string
		key   Standing
		dated Day
		shown *Day
		want  Judgement
	}{
		{"active", known(Trusted{}), before, nil, Good},
		{"active", known(Trusted{}), before, shown(before), Good},
		{"active", known(Trusted{}), d, nil, Good},
		{"active", known(Trusted{}), d, shown(d), Good},

		{"not yet", known(Trusted{From: shown(d)}), before, nil, NotGood},
		{"not yet", known(Trusted{From: shown(d)}), before, shown(before), NotGood},
		{"not yet", known(Trusted{From: shown(d)}), d, nil, Good},
		{"not yet", known(Trusted{From: shown(d)}), d, shown(d), Good},
		{"not yet", known(Trusted{From: shown(d)}), d, shown(before), GoodSaySo},

		{"retired", revoked(WhyRetired), before, nil, GoodSaySo},
		{"retired", revoked(WhyRetired), before, shown(before), Good},
		{"retired", revoked(WhyRetired), before, shown(d), GoodSaySo}, // shown too late to tell
		{"retired", revoked(WhyRetired), d, nil, NotGood},
		{"retired", revoked(WhyRetired), d, shown(before), NotGood},
		{"retired", revoked(WhyRetired), d, shown(d), NotGood},

		{"until", known(Trusted{Until: shown(before)}), before, nil, GoodSaySo},
		{"until", known(Trusted{Until: shown(before)}), before, shown(before), Good},
		{"until", known(Trusted{Until: shown(before)}), d, nil, NotGood},
		{"until", known(Trusted{Until: shown(before)}), d, shown(before), NotGood},

		{"compromised", revoked(WhyCompromised), before, nil, NotGood},
		{"compromised", revoked(WhyCompromised), before, shown(before), GoodSaySo},
		{"compromised", revoked(WhyCompromised), before, shown(d), NotGood}, // a thief could have made it that day
		{"compromised", revoked(WhyCompromised), d, nil, NotGood},
		{"compromised", revoked(WhyCompromised), d, shown(before), NotGood},
		{"compromised", revoked(WhyCompromised), d, shown(d), NotGood},
		{"any other reason is compromised", revoked("lost"), before, nil, NotGood},

		{"unknown", Standing{}, before, nil, NotKnown},
		{"unknown", Standing{}, before, shown(before), NotKnown},
		{"unknown", Standing{}, d, nil, NotKnown},
		{"unknown", Standing{}, d, shown(before), NotKnown},

		// Of several states the worst.
		{"retired, then compromised", known(Trusted{Until: shown(50), Revoked: &Revocation{d, WhyCompromised}}), 40, nil, NotGood},
		{"retired, then compromised", known(Trusted{Until: shown(50), Revoked: &Revocation{d, WhyCompromised}}), 40, shown(60), GoodSaySo},
		{"retired, then compromised", known(Trusted{Until: shown(50), Revoked: &Revocation{d, WhyCompromised}}), 60, shown(60), NotGood},
		{"not yet and revoked later", known(Trusted{From: shown(d), Revoked: &Revocation{long, WhyRetired}}), before, nil, NotGood},
	} {
		by := "only claimed"
		if c.shown != nil {
			by = fmt.Sprintf("shown by day %d", *c.shown)
		}
		if got := Judge(c.key, c.dated, c.shown); got != c.want {
			t.Errorf("%s, dated day %d, %s: %d, want %d", c.state, c.dated, by, got, c.want)
		}
	}
	if len(judgements) != 5*2*2 {
		t.Errorf("the table has %d rows", len(judgements))
	}
}

// Less to go by never makes a judgement better, nor does a revocation.
func TestJudgeNeverBetterForLess(t *testing.T) {
	days := []*Day{nil, new(Day(10)), new(Day(20)), new(Day(30))}
	for _, from := range days {
		for _, until := range days {
			for _, why := range []RevokedWhy{"", WhyRetired, WhyCompromised} {
				for dated := Day(5); dated < 40; dated += 5 {
					for _, shown := range days {
						s := Standing{Trusted: Trusted{Key: PublicKey{9}, From: from, Until: until}}
						plain := Judge(s, dated, shown)
						if why != "" {
							s.Trusted.Revoked = &Revocation{20, why}
						}
						got := Judge(s, dated, shown)
						if got < plain {
							t.Fatalf("a revocation makes %d of %d", got, plain)
						}
						if from == nil && shown != nil && Judge(s, dated, nil) < got {
							t.Fatalf("from %v until %v %s dated %d: better when only claimed than shown by %d", from, until, why, dated, *shown)
						}
						if at := s.Trusted.ValidAt(int64(dated) * secondsADay); (at == Valid) != (got != NotGood) && why != WhyCompromised {
							t.Fatalf("ValidAt %s, judged %d", at, got)
						}
					}
				}
			}
		}
	}
}

func TestStateOn(t *testing.T) {
	for want, s := range map[KeyState]Standing{
		StateUnknown:     {},
		StateActive:      {Trusted: Trusted{Key: PublicKey{9}, From: new(Day(100)), Until: new(Day(100)), Revoked: &Revocation{101, WhyCompromised}}},
		StateNotYet:      {Trusted: Trusted{Key: PublicKey{9}, From: new(Day(101))}},
		StateRetired:     {Trusted: Trusted{Key: PublicKey{9}, Until: new(Day(99)), From: new(Day(101))}},
		StateCompromised: {Trusted: Trusted{Key: PublicKey{9}, Until: new(Day(99)), Revoked: &Revocation{100, WhyCompromised}}},
	} {
		if got := s.StateOn(100); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
