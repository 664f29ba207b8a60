package schedule

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// coverings says of every two tasks whether the first covers the second, also by
// way of others; of a task and itself, whether it stands in a ring. It is Does
// for all of them at once.
func (s Schedule) coverings() [][]bool {
	direct := s.covered()
	covers := make([][]bool, len(s.Tasks))
	for i := range s.Tasks {
		covers[i] = make([]bool, len(s.Tasks))
		for todo := []int{i}; len(todo) > 0; todo = todo[1:] {
			for _, next := range direct[todo[0]] {
				if !covers[i][next] {
					covers[i][next] = true
					todo = append(todo, next)
				}
			}
		}
	}
	return covers
}

// covered lists for every task the places of those that it names.
func (s Schedule) covered() [][]int {
	places := map[string]int{}
	for i, t := range slices.Backward(s.Tasks) {
		places[t.ID] = i
	}
	direct := make([][]int, len(s.Tasks))
	for i, t := range s.Tasks {
		for _, id := range t.Covers {
			if place, known := places[id]; known {
				direct[i] = append(direct[i], place)
			}
		}
	}
	return direct
}

// rings refuses tasks that cover themselves: the shortest ring through each of
// them, and each ring once.
func (f *finder) rings() {
	direct := f.schedule.covered()
	seen := map[string]bool{}
	for i := range f.schedule.Tasks {
		if !f.covers[i][i] {
			continue
		}
		ring := ringThrough(direct, i)
		least := slices.Index(ring, slices.Min(ring))
		ring = slices.Concat(ring[least:], ring[:least])
		if key := fmt.Sprint(ring); !seen[key] {
			seen[key] = true
			f.ring(ring)
		}
	}
}

// ringThrough is the shortest way from a task by what each covers back to it;
// there is one.
func ringThrough(direct [][]int, start int) []int {
	from := map[int]int{}
	for todo := []int{start}; len(todo) > 0; todo = todo[1:] {
		for _, next := range direct[todo[0]] {
			if next == start {
				ring := []int{todo[0]}
				for ring[0] != start {
					ring = slices.Insert(ring, 0, from[ring[0]])
				}
				return ring
			}
			if _, reached := from[next]; !reached {
				from[next] = todo[0]
				todo = append(todo, next)
			}
		}
	}
	return []int{start}
}

func (f *finder) ring(ring []int) {
	tasks := f.schedule.Tasks
	names := make([]string, 0, len(ring)+1)
	for _, i := range append(slices.Clone(ring), ring[0]) {
		names = append(names, tasks[i].ID)
	}
	path := taskPath(ring[0], "covers", strconv.Itoa(slices.Index(tasks[ring[0]].Covers, names[1])))
	if len(ring) == 1 {
		f.fault(path, "covers", "%s covers itself: take it out", names[0])
		return
	}
	f.fault(path, "covers", "%s, so that %s covers itself: take one of them out", strings.Join(names, " covers "), names[0])
}
