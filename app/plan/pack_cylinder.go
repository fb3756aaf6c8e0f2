package plan

// cylinderRule packs helium.
func cylinderRule() packRule {
	return thing("helium/cylinder", "bag/helium", "Helium cylinder with valve and nozzle", "", true, func(d *draft) (int, string, Source) {
		litres := d.heliumL()
		if !(litres > 0) {
			return 0, "", Source{}
		}
		return 1, "about " + number(roundTo(litres, 10)) + " litres of gas for " + count(d.floating(), "balloon") + "; upright, tied, cap on, windows open in the car", Source{"volume of the balloons", Published}
	})
}
