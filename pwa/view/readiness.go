package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// Readiness says whether this phone is ready to work without signal, or why not; "" where nobody has asked.
type Readiness string

// The states of [Readiness].
const (
	OfflineReady   Readiness = "ready"   // the app and the job on the screen are stored
	OfflineComing  Readiness = "coming"  // they are on their way
	OfflineHTTP    Readiness = "http"    // the address is plain http
	OfflineRefused Readiness = "refused" // the browser keeps no app, as in a private window
	OfflineUnkept  Readiness = "unkept"  // the storage refuses
)

// offlineLine draws the sign whether a phone may leave for a place without signal. It is quiet once all is there.
func offlineLine(f Frame) g.Node {
	why := ""
	switch f.Device.Offline {
	case OfflineReady:
		return h.P(h.ID("offline"), h.Class("isup"), Icon("tick"), g.Text("Ready to work without signal"))
	case OfflineComing:
		why = "Getting ready to work without signal. Stay here with signal for a moment."
	case OfflineHTTP:
		why = "Needs signal: this address is plain http, so the browser can’t keep the app."
	case OfflineRefused:
		why = "Needs signal: this browser won’t keep the app. Is this a private window or inside a messenger? "
		if f.Owns() {
			why += "Make a code under This phone and type it in the phone’s browser."
		} else {
			why += "Open your link in the phone’s browser."
		}
	case OfflineUnkept:
		why = "Needs signal: this phone’s storage is full or refuses."
	default:
		return nil
	}
	tone, icon := Changed, "care"
	if f.Device.Offline == OfflineComing {
		tone, icon = Waits, "wait"
	}
	return h.P(h.ID("offline"), h.Class(string(tone)), Icon(icon), g.Text(why))
}
