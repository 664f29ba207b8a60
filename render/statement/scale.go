package statement

import (
	"strconv"
	"time"

	"hourseal/record/quantity"
)

// hoursScale is a scale of hours whose ends are whole steps.
type hoursScale struct{ low, high, step quantity.Hours }

// mostSteps keeps the figures of a scale apart from each other.
const mostSteps = 5

// hoursScaleOf takes the finest of the steps 1, 2, 5, 10, 20 h and so on that makes no
// more than mostSteps.
func hoursScaleOf(low, high quantity.Hours) hoursScale {
	for ten := quantity.Hour; ; ten *= 10 {
		for _, step := range []quantity.Hours{ten, 2 * ten, 5 * ten} {
			s := hoursScale{low / step * step, (high + step - 1) / step * step, step}
			if s.high == s.low {
				s.high += step
			}
			if (s.high-s.low)/step <= mostSteps {
				return s
			}
		}
	}
}

// tick is a day on the axis with what stands under it.
type tick struct {
	date quantity.Date
	text string
}

// mostTicks keeps the dates under a chart apart from each other.
const mostTicks = 9

// monthSteps are the steps of the axis of dates that are easy to read.
var monthSteps = []quantity.Months{1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200}

// ticksOf are the firsts of months or years from one day to another; the two days
// themselves where there are fewer than two such.
func ticksOf(first, last quantity.Date) []tick {
	for _, step := range monthSteps {
		if int64(last.Sub(first)) > int64(step)*31*mostTicks {
			continue
		}
		var ticks []tick
		year, month, _ := first.YMD()
		start := (year*12 + int(month) - 1) / int(step) * int(step)
		for n := start; len(ticks) <= mostTicks; n += int(step) {
			date := quantity.FromYMD(n/12, time.January, 1).AddMonths(quantity.Months(n % 12))
			if date > last {
				break
			}
			if date >= first {
				text := date.String()[:7]
				if step >= 12 {
					text = strconv.Itoa(date.Year())
				}
				ticks = append(ticks, tick{date, text})
			}
		}
		if len(ticks) <= mostTicks && len(ticks) > 1 {
			return ticks
		}
		if len(ticks) <= 1 {
			break
		}
	}
	if first == last {
		return []tick{{first, first.String()}}
	}
	return []tick{{first, first.String()}, {last, last.String()}}
}
