package serve

import "strings"

// sign is a part of a browser's own name and what it tells.
type sign struct{ part, word string }

// machines and browsers are in the order in which they are looked for: most name others too.
var (
	machines = []sign{{"iPhone", "iPhone"}, {"iPod", "iPod"}, {"iPad", "iPad"}, {"Android", "Android"},
		{"Windows", "Windows"}, {"CrOS", "Chromebook"}, {"Macintosh", "Mac"}, {"Linux", "Linux"}}
	browsers = []sign{{"Edg", "Edge"}, {"OPR/", "Opera"}, {"SamsungBrowser/", "Samsung Internet"}, {"FxiOS/", "Firefox"},
		{"Firefox/", "Firefox"}, {"CriOS/", "Chrome"}, {"Chrome/", "Chrome"}, {"Safari/", "Safari"}}
)

// deviceWords names a device by its browser's own name: "iPhone, Safari". It has no version and nothing that tells
// devices of a kind apart. It is empty where the machine is not known.
func deviceWords(agent string) string {
	machine, browser := wordOf(machines, agent), wordOf(browsers, agent)
	switch {
	case machine == "":
		return ""
	case machine == "Android" && strings.Contains(agent, "Mobile"):
		machine = "Android phone"
	case machine == "Android":
		machine = "Android tablet"
	case machine == "Windows", machine == "Linux":
		machine += " computer"
	case machine == "Mac" && browser == "Safari": // an iPad calls itself a Macintosh
		machine = "Mac or iPad"
	}
	if browser == "" {
		return machine
	}
	return machine + ", " + browser
}

func wordOf(signs []sign, agent string) string {
	for _, s := range signs {
		if strings.Contains(agent, s.part) {
			return s.word
		}
	}
	return ""
}
