package plan

// cylinderRule packs helium.
var cylinderRule = packRule{family: "helium/cylinder", bag: "bag/helium", one: "Helium cylinder with valve and nozzle", kit: true,
	need: func(d *draft) (int, string, *Source) {
		litres := d.heliumL()
		if !(litres > 0) {
			return 0, "", nil
		}
		return 1, "about " + number(roundTo(litres, 10)) + " litres of gas for " + count(d.floating(), "balloon") + "; upright, tied, cap on, windows open in the car", &Source{"volume of the balloons", Published}
	}}
