package figures

import "slices"

// clockEntries is what the forecast assumes beyond the minutes of the cards. Do not change the returned slice.
func clockEntries() []entry { return clockFigures[:] }

var clockFigures = [...]entry{
	{"clock/evenings", "Evenings at home before the day", 3, 0, 7, "evenings", FromMemory},
	{"clock/shop-evening", "Get the balloons together so many evenings before the day", 7, 0, 7, "evenings", FromMemory},
	{"clock/evening-hour", "Evenings at home begin at", 18.5, 6, 23, "o'clock", FromMemory},
	{"clock/evening-minutes", "An evening at home lasts", 180, 15, 720, "minutes", FromMemory},
	{"clock/morning", "On the day, before driving off, work at home for", 90, 0, 600, "minutes", FromMemory},
	{"clock/drive", "The drive to the venue", 20, 0, 600, "minutes", FromMemory},
	{"clock/crowding", "Lost of every pair of hands for each further one on a card", 5, 0, 50, "%", FromMemory},
	{"clock/pump-hands", "People who fill, tie and twist beside one pump", 2, 1, 10, "hands", FromMemory},
	{"clock/helper-hour", "A helper's hour costs", 15, 0, 1000, "in money", CommonPractice},
	{"clock/hire", "Hiring a pump or a ladder costs", 20, 0, 10000, "in money", CommonPractice},
	{"clock/spread", "How far the time of a card of your own strays", 25, 0, 100, "%", FromMemory},
	{"clock/spread-kind", "How far a whole kind of work strays", 15, 0, 100, "%", FromMemory},
}

// KindOfWork is a group of cards whose speed is learnt together, by the rows of the time table behind their minutes.
type KindOfWork struct {
	Name, Label string
	Rows        []string // beginnings of the keys below "minutes/"
	// strays is how far the time of one card strays in beginners' and in practised hands, in percent. From memory.
	strays [2]uint8
}

// WorkKinds returns the kinds of work. Every row of the time table belongs to one of them.
func WorkKinds() []KindOfWork { return slices.Clone(workKinds[:]) }

var workKinds = [...]KindOfWork{
	{"fill", "Fill, tie and twist", []string{"duplet/", "twist/", "helium/"}, [2]uint8{20, 12}},
	{"join", "Join clusters to a base", []string{"join/"}, [2]uint8{25, 15}},
	{"shape", "Fix and shape a base", []string{"shape-foot/"}, [2]uint8{40, 25}},
	{"fix", "Fix clusters and accents", []string{"fix-cluster/"}, [2]uint8{30, 20}},
	{"set-out", "Set out bouquets and table pieces", []string{"set-out/"}, [2]uint8{25, 20}},
	{"frame", "Frames up", []string{"frame/"}, [2]uint8{40, 25}},
	{"cover", "Panels and cloths", []string{"cover/"}, [2]uint8{40, 25}},
	{"sign", "Hang signs", []string{"sign/"}, [2]uint8{45, 30}},
	{"shine", "Shine spray", []string{"shine-10ft/"}, [2]uint8{25, 15}},
	{"pack", "Pack the bags", []string{"pack-line/"}, [2]uint8{30, 20}},
	{"car", "Load and unload", []string{"car/", "carry/"}, [2]uint8{35, 25}},
	{"trip", "Fetch another car load", nil, [2]uint8{20, 15}},
	{"shop", "Get the balloons together", []string{"shop/"}, [2]uint8{35, 25}},
	{"test", "Test a top bar", []string{"test-bar/"}, [2]uint8{35, 25}},
	{"look", "Walk the room", []string{"look/"}, [2]uint8{40, 30}},
	{"tidy", "Hide ties and sweep", []string{"tidy/"}, [2]uint8{35, 25}},
	{"down", "Take down", []string{"down-10ft/", "down-80/"}, [2]uint8{25, 20}},
	{"strike", "Frames down", []string{"strike/"}, [2]uint8{25, 20}},
	{"sweep", "Hand the room back", []string{"sweep/"}, [2]uint8{30, 25}},
}

// strayEntries is how far the time of one card of each kind strays, for each kind of hands: the standard deviation of
// its logarithm in one pair of hands.
func strayEntries() []entry {
	rows := make([]entry, 0, 2*len(workKinds))
	for i := range workKinds {
		k := &workKinds[i]
		for at, s := range [...]Skill{Beginner, Practised} {
			rows = append(rows, entry{k.StrayKey(s), k.Label + ", " + string(s), float64(k.strays[at]),
				0, 100, "%", FromMemory})
		}
	}
	return rows
}

// StrayKey is the key of the figure for how far its times stray in such hands.
func (k *KindOfWork) StrayKey(s Skill) string { return "stray/" + k.Name + "/" + string(s) }

// KindsOfWork names the kinds of work that are learnt.
func KindsOfWork() []string {
	names := make([]string, len(workKinds))
	for i := range workKinds {
		names[i] = workKinds[i].Name
	}
	return names
}
