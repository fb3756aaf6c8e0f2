package calc

import (
	"strings"

	"garlandry/calc/measure"
	"garlandry/calc/rig"
)

// Load is something that hangs on a bar. Positions are measured from the left support.
type Load struct {
	Name   string // may be empty
	MassG  float64
	AtMM   float64 // its place, if it hangs at one place
	Middle bool    // no place was typed, so it hangs at the middle of the span
	Along  bool    // spread evenly, over FromMM to ToMM
	FromMM float64
	ToMM   float64 // 0 with Along means the whole span
}

const wantLoads = "loads such as sign 2kg @ 1.2m, cloth 1.8kg along, garland 3kg from 0.5m to 2m"

var placeMarks = [...]string{"@", " at ", " along", " from "}

// readLoads reads a list of loads: a name, a weight, then the place: "@ 1.2m" from the left support, "along" for spread
// over the span, "from 0.5m to 2m", or nothing for the middle.
func readLoads(text string, bare measure.System) (any, error) {
	list := items(text)
	if len(list) == 0 || len(list) > rig.MostLoads {
		return nil, refuseList(text, wantLoads, "1 to 100 loads")
	}
	loads := make([]Load, len(list))
	for i, item := range list {
		load, err := readLoad(item, bare)
		if err != nil {
			return nil, err
		}
		loads[i] = load
	}
	return loads, nil
}

func readLoad(item string, bare measure.System) (Load, error) {
	line := oneLine(item)
	digit := strings.IndexAny(line, "0123456789")
	if digit < 0 {
		return Load{}, refuseList(item, wantLoads, "no weight")
	}
	before := strings.ReplaceAll(" "+line[:digit], "−", "-")
	if strings.HasSuffix(before, " -") {
		return Load{}, refuseList(item, wantLoads, "less than nothing")
	}
	load := Load{Name: strings.Trim(before, " :=.-")}
	weight, place := strings.ToLower(line[digit:]), ""
	weight = strings.TrimSuffix(strings.TrimSuffix(weight, "in the middle"), "in the centre")
	for _, mark := range placeMarks {
		if before, after, found := strings.Cut(weight, mark); found {
			weight, place = before, strings.TrimSpace(after)
			if mark == " along" || mark == " from " {
				load.Along = true
			} else if place == "" {
				return Load{}, refuseList(item, wantLoads, "no place after "+strings.TrimSpace(mark))
			}
			if mark == " from " && place == "" {
				return Load{}, refuseList(item, wantLoads, "no place after from")
			}
			break
		}
	}
	mass, err := measure.ParseMassG(weight, bare)
	if err != nil {
		return Load{}, err
	}
	if mass > rig.LargestLoadG {
		return Load{}, refuseList(item, wantLoads, "too heavy")
	}
	load.MassG = mass
	return load.placed(item, place, bare)
}

func (load Load) placed(item, place string, bare measure.System) (Load, error) {
	place = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(place, "the bar"), "from "))
	if place == "" {
		load.Middle = !load.Along
		return load, nil
	}
	if !load.Along {
		if place == "middle" || place == "the middle" || place == "centre" || place == "center" {
			load.Middle = true
			return load, nil
		}
		mm, err := measure.ParseOffsetMM(place, bare)
		load.AtMM = mm
		return load, err
	}
	from, to, found := strings.Cut(place, " to ")
	if !found {
		return Load{}, refuseList(item, wantLoads, "where along is not clear")
	}
	var err error
	if load.FromMM, err = measure.ParseOffsetMM(from, bare); err != nil {
		return Load{}, err
	}
	if load.ToMM, err = measure.ParseOffsetMM(to, bare); err != nil {
		return Load{}, err
	}
	if load.ToMM <= load.FromMM {
		return Load{}, refuseList(item, wantLoads, "it ends before it begins")
	}
	return load, nil
}
