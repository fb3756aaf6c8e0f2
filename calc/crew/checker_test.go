package crew_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"garlandry/calc/crew"
)

// checkCrew checks a schedule against the job, minute by minute, without using the code that made it. Work is checked
// for plans of a search. Carried plans keep their teams, but who of a shared task works at the same time may differ.
func checkCrew(t *testing.T, job crew.Job, s crew.Schedule, work bool) {
	t.Helper()
	require.Len(t, s.Slots, len(job.Tasks))
	finish := job.Now
	slots := map[string]crew.Slot{}
	for i, slot := range s.Slots {
		require.Equal(t, job.Tasks[i].Key, slot.Task)
		require.GreaterOrEqual(t, slot.Start, job.Now, slot.Task)
		if from := job.Tasks[i].From; from > 0 {
			require.GreaterOrEqual(t, slot.Start, from, slot.Task)
		}
		require.LessOrEqual(t, slot.Start, slot.End)
		slots[slot.Task] = slot
		if job.Tasks[i].Place != crew.TakeDown {
			finish = max(finish, slot.End)
		}
	}
	require.Equal(t, finish, s.Finish)
	for _, task := range job.Tasks {
		for _, before := range task.Before {
			if first, known := slots[before]; known {
				require.GreaterOrEqual(t, slots[task.Key].Start, first.End, "%s must end before %s begins", before, task.Key)
			}
		}
		for _, other := range job.Tasks {
			if task.Place == crew.Site && other.Place == crew.Load {
				require.GreaterOrEqual(t, slots[task.Key].Start, slots[other.Key].End+job.Drive)
			}
		}
		checkSlot(t, job, task, slots[task.Key], s, work)
	}
	checkPeople(t, job, s)
	checkThings(t, job, s)
}

func checkSlot(t *testing.T, job crew.Job, task crew.Task, slot crew.Slot, s crew.Schedule, work bool) {
	t.Helper()
	people := map[string]crew.Person{}
	for _, p := range job.People {
		people[p.Key] = p
	}
	stays := map[string]bool{}
	for _, p := range s.StaysOn {
		stays[p] = true
	}
	for _, spell := range slot.Spells {
		person, known := people[spell.Person]
		require.True(t, known)
		require.True(t, spell.From >= slot.Start && spell.To <= slot.End && spell.From < spell.To, "%v %v", slot, spell)
		require.True(t, mayDo(task, person), "%s may not do %s", person.Key, task.Key)
		if !stays[person.Key] {
			require.True(t, within(person.Free, spell) && within(job.Windows[task.Place], spell), "%s is away: %v",
				person.Key, slot)
		}
	}
	if task.Minutes == 0 {
		return
	}
	if work || !task.Splittable {
		checkTaken(t, job, task, slot)
	}
	done := 0.0
	least, most := max(1, task.Least), max(1, task.Least, task.Most)
	for now := slot.Start; now < slot.End; now++ {
		practised, beginners := 0, 0
		for _, spell := range slot.Spells {
			if spell.From <= now && now < spell.To {
				if people[spell.Person].Practised {
					practised++
				} else {
					beginners++
				}
			}
		}
		hands := practised + beginners
		require.LessOrEqual(t, hands, most, "%s at %d", task.Key, now)
		if !task.Splittable {
			require.GreaterOrEqual(t, hands, least, "%s at %d", task.Key, now)
		}
		if work && hands > 0 {
			require.GreaterOrEqual(t, hands, least, "%s at %d", task.Key, now)
		}
		for n := range hands {
			gain := math.Max(0, 1-2*task.Crowding*float64(n))
			if n >= practised {
				gain /= math.Max(1, task.Beginner)
			}
			done += gain
		}
	}
	if work {
		require.InDelta(t, 0, math.Max(0, task.Minutes-done), 0.002*task.Minutes+0.002, "%s: %.3f of %.3f done", task.Key,
			done, task.Minutes)
	}
}

// checkTaken checks that the people who took the task are in its team, as far as there is room: all of them from
// beginning to end, or one of them at the beginning if it is splittable.
func checkTaken(t *testing.T, job crew.Job, task crew.Task, slot crew.Slot) {
	t.Helper()
	took, begun, room := 0, 0, max(1, task.Least, task.Most)
	for _, person := range job.People {
		here := mayDo(task, person)
		last := job.Doors
		if w := job.Windows[task.Place]; len(w) > 0 {
			last = min(last, w[len(w)-1].To)
		}
		if n := len(person.Free); n > 0 && (person.Free[n-1].To <= job.Now || person.Free[0].From >= last) {
			here = false
		}
		for _, key := range task.Taken {
			if key != person.Key || !here {
				continue
			}
			took++
			for _, spell := range slot.Spells {
				if spell.Person == key && spell.From == slot.Start && (task.Splittable || spell.To == slot.End) {
					begun++
				}
			}
		}
	}
	if task.Splittable {
		require.GreaterOrEqual(t, begun, min(took, 1), "%s must be begun by somebody who took it: %v", task.Key, slot)
	} else {
		require.Equal(t, min(took, room), begun, "%s must be done by those who took it: %v", task.Key, slot)
	}
}

// mayDo reports whether a person goes to a task's place and may do it.
func mayDo(task crew.Task, p crew.Person) bool {
	return (len(p.Only) == 0 || contains(p.Only, task.Place)) && (len(task.By) == 0 || contains(task.By, p.Key))
}

func contains[T comparable](list []T, one T) bool {
	for _, p := range list {
		if p == one {
			return true
		}
	}
	return false
}

func within(times []crew.Interval, spell crew.Spell) bool {
	for _, i := range times {
		if i.From <= spell.From && spell.To <= i.To {
			return true
		}
	}
	return len(times) == 0
}

func checkPeople(t *testing.T, job crew.Job, s crew.Schedule) {
	t.Helper()
	for _, person := range job.People {
		busy := map[int]string{}
		for _, slot := range s.Slots {
			for _, spell := range slot.Spells {
				for now := spell.From; spell.Person == person.Key && now < spell.To; now++ {
					require.Empty(t, busy[now], "%s is on %s and %s at %d", person.Key, busy[now], slot.Task, now)
					busy[now] = slot.Task
				}
			}
		}
	}
}

func checkThings(t *testing.T, job crew.Job, s crew.Schedule) {
	t.Helper()
	for _, thing := range job.Things {
		inUse := map[int]int{}
		for i, slot := range s.Slots {
			for _, need := range job.Tasks[i].Needs {
				if need.Thing != thing.Key {
					continue
				}
				for now := slot.Start; now < slot.End; now++ {
					hands := 0
					for _, spell := range slot.Spells {
						if spell.From <= now && now < spell.To {
							hands++
						}
					}
					if hands == 0 {
						continue
					}
					lots := 1
					if need.Serves > 0 {
						lots = (hands + need.Serves - 1) / need.Serves
					}
					inUse[now] += lots * max(1, need.Units)
				}
			}
		}
		for now, units := range inUse {
			require.LessOrEqual(t, units, thing.Count, "%s at %d", thing.Key, now)
		}
	}
}
