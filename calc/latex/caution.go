package latex

// Cautions to show with anything about balloons or helium, in our own words. Local law, the venue's rules and the
// makers' labels take precedence.
const (
	// CautionChoking belongs wherever balloons are handled.
	CautionChoking = "Children under eight can choke or suffocate on empty or burst balloons. Keep them away from " +
		"both, pick up pieces at once, and let only adults fill and tie."
	// CautionAllergy belongs with every order and on the card at the venue.
	CautionAllergy = "This is natural rubber latex. Some people are allergic to it, a few of them badly. Ask about " +
		"guests and staff before ordering, and put up a notice at the door."
	// CautionHelium belongs wherever helium is used.
	CautionHelium = "Never breathe helium, least of all from a cylinder. It replaces air without any warning, and the " +
		"pressure can tear a lung. Keep the cylinder upright and tied, its cap on while you move it. Shut the valve when " +
		"idle, keep a door open, and never carry it loose in a car. Follow the supplier's instructions and local rules."
	// CautionRelease belongs wherever a balloon floats.
	CautionRelease = "Tie every floating balloon to a weight and never let one go outdoors. In many places that is " +
		"against the law, and it is litter everywhere. Nothing that conducts may float; stay away from power lines."
	// CautionHeat belongs with growth by warmth.
	CautionHeat = "Sun and hot lamps burst balloons. A closed car in the sun passes 60 °C (140 °F): never leave " +
		"filled balloons, or a gas cylinder, in it."
	// CautionEyes belongs with filling and twisting.
	CautionEyes = "A balloon that bursts while you fill or twist it can hurt your eyes and ears. Wear glasses and " +
		"turn it away from you."
)
