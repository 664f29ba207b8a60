package picture

// evidence is how well soft modules agree with what a symbol of their layout has
// in it whatever its text: 1 for all, about 0 for chance.
type evidence struct {
	known      float32 // timing and alignment patterns
	format     float32 // the likeliest word of format information
	version    float32 // the version information
	hasVersion bool
	dark       float32 // share of dark modules among the data
}

func evidenceOf(l *layout, soft []float32) (e evidence) {
	var agreed, all, dark, count float32
	for i, k := range l.kinds {
		r, c := i/l.side, i%l.side
		inFinder := (r < 9 || r >= l.side-8) && c < 9 || r < 9 && c >= l.side-8
		v := max(-1, min(1, soft[i]))
		switch {
		case k == data:
			count++
			if v < 0 {
				dark++
			}
		case inFinder:
		case k == knownDark:
			agreed -= v
			all += max(v, -v)
		case k == knownLight:
			agreed += v
			all += max(v, -v)
		}
	}
	e.known, e.dark = agreed/max(all, 1), dark/count
	format := formatModules(l.side)
	values := pick(l, soft, format[:])
	for _, word := range formatWords {
		e.format = max(e.format, likeness(word, 15, values))
	}
	if l.version >= leastWithInfo {
		version := versionModules(l.side)
		values := pick(l, soft, version[:])
		e.version, e.hasVersion = likeness(versionWords[l.version], 18, values), true
	}
	return e
}

// stands says whether this is a symbol beyond reasonable doubt. Of chance modules
// the likeliest word of format information agrees to about a half.
func (e evidence) stands() bool {
	switch {
	case e.dark < 0.3 || e.dark > 0.7:
		return false
	case e.hasVersion:
		return (e.known+e.format+e.version)/3 >= 0.6
	default:
		return e.known >= 0.7 && e.format >= 0.75
	}
}
