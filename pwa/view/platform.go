package view

import "strings"

// Platform is what a browser runs on, as far as installing the app and keeping its storage differ.
type Platform string

// The platforms that pages tell apart; "" is any other.
const (
	IPhone         Platform = "iPhone"
	IPad           Platform = "iPad"
	MacSafari      Platform = "Mac"
	AndroidFirefox Platform = "Firefox on Android"
	Android        Platform = "Android"
	Chromium       Platform = "a computer" // with a browser that installs apps
)

// PlatformOf reads a browser's own name. An iPad calls itself a Mac, but a Mac has no touch screen; touch is the number
// of fingers that the screen takes, 0 if it is not known.
func PlatformOf(agent string, touch int) Platform {
	has := func(text string) bool { return strings.Contains(agent, text) }
	switch {
	case has("iPhone"), has("iPod"):
		return IPhone
	case has("iPad"), has("Macintosh") && touch > 1 && !has("Firefox/"):
		return IPad
	case has("Android") && has("Firefox/"):
		return AndroidFirefox
	case has("Android"):
		return Android
	case has("Firefox/"):
		return ""
	case has("Chrome/"):
		return Chromium
	case has("Macintosh") && has("Safari/"):
		return MacSafari
	}
	return ""
}

// Forgets reports whether the browser deletes what a site keeps after seven days without a visit, unless the app is
// installed.
func (p Platform) Forgets() bool { return p == IPhone || p == IPad || p == MacSafari }

// OwnStorage reports whether an installed app starts with an empty storage of its own.
func (p Platform) OwnStorage() bool { return p.Forgets() }
