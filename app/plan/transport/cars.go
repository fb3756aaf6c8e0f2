package transport

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"garlandry/app/job"
	"garlandry/app/plan/count"
	"garlandry/app/plan/figures"
	"garlandry/calc/cargo"
	"garlandry/calc/stable"
)

// Car is one car of the job.
type Car struct {
	ID      string // of the kit; "" for a usual car, "van+2" for the second of the kit's line "van"
	Name    string
	Litres  float64
	Known   bool     // its litres are the user's
	First   bool     // the first of the kit: its trips have the oldest keys
	Drivers []string // ids of the people who may drive it; "" is the owner without a name
	space   cargo.Space
}

// mostOfOneCar is how many cars of one line of the kit count.
const mostOfOneCar = 9

// cars lists the cars that somebody can drive, in the order of the kit, and the names of those that nobody can. A kit
// without cars has a usual one.
func cars(d *count.Draft) (list []Car, idle []string) {
	var all []Car
	for i := range d.Job.Kit {
		k := &d.Job.Kit[i]
		for n := 1; k.Kind == "car" && n <= min(k.Count, mostOfOneCar); n++ {
			car := Car{ID: k.ID, Name: k.Name, Litres: k.Litres, Known: k.Litres > 0, First: len(all) == 0}
			if n > 1 {
				car.ID, car.Name = k.ID+"+"+strconv.Itoa(n), k.Name+" "+strconv.Itoa(n)
			}
			if !car.Known {
				car.Litres = d.Figures.Get("car/litres")
			}
			car.space, car.Drivers = spaceOf(car.Litres, k.LongestMM), drivers(&d.Job, k.Driver)
			all = append(all, car)
		}
	}
	if len(all) == 0 {
		litres := d.Figures.Get("car/litres")
		all = []Car{{Name: "the car", Litres: litres, First: true, space: spaceOf(litres, 0),
			Drivers: drivers(&d.Job, "")}}
	}
	driven := all
	if Marked(&d.Job) {
		driven = matched(all)
	}
	for _, car := range all {
		if slices.ContainsFunc(driven, func(c Car) bool { return c.ID == car.ID }) {
			list = append(list, car)
		} else {
			idle = append(idle, car.Name)
		}
	}
	return list, idle
}

// spaceOf returns a box as long as the longest load, if that is known, else a cube.
func spaceOf(litres, longestMM float64) cargo.Space {
	space := cargo.Space{Litres: litres}
	if longestMM >= cargo.SmallestSpaceMM {
		side := math.Sqrt(float64(litres*1e6) / longestMM)
		if side >= cargo.SmallestSpaceMM && side <= cargo.LargestMM {
			space.LengthMM, space.WidthMM, space.HeightMM = longestMM, side, side
		}
	}
	return space
}

// Marked reports whether the job says who can drive.
func Marked(j *job.Job) bool {
	for i := range j.Crew {
		if j.Crew[i].Drives {
			return true
		}
	}
	for i := range j.Kit {
		if j.Kit[i].Kind == "car" && isMember(j, j.Kit[i].Driver) {
			return true
		}
	}
	return false
}

func isMember(j *job.Job, id string) bool {
	return id != "" && slices.ContainsFunc(j.Crew, func(m job.Member) bool { return m.ID == id })
}

// drivers lists the ids of those who may drive a car: the one who is named for it, else those who can drive. If the job
// says nothing, practised people drive, and without any the owner does. A beginner drives only if the job says so.
func drivers(j *job.Job, named string) (list []string) {
	if isMember(j, named) {
		return []string{named}
	}
	marked := Marked(j)
	for i := range j.Crew {
		m := &j.Crew[i]
		if marked && m.Drives || !marked && m.Skill == string(figures.Practised) {
			list = append(list, m.ID)
		}
	}
	if list == nil && !marked {
		list = []string{""}
	}
	return list
}

// matched returns cars that can be driven at the same time, each by its own driver, the largest first: a set of cars
// that has drivers stays one when a car without a driver is passed over.
func matched(all []Car) []Car {
	bySize := slices.Clone(all)
	stable.Sort(bySize, func(a, b Car) int { return cmp.Compare(b.Litres, a.Litres) })
	drives := map[string]int{} // the car of a driver
	var place func(car int, asked map[string]bool) bool
	place = func(car int, asked map[string]bool) bool {
		for _, driver := range bySize[car].Drivers {
			if asked[driver] {
				continue
			}
			asked[driver] = true
			if other, busy := drives[driver]; !busy || place(other, asked) {
				drives[driver] = car
				return true
			}
		}
		return false
	}
	var list []Car
	for car := range bySize {
		if place(car, map[string]bool{}) {
			list = append(list, bySize[car])
		}
	}
	return list
}
