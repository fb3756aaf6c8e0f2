package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// ActNoInstall is the act of the form that puts the offer to install away for good.
const ActNoInstall = "no-install"

// FieldThen is the page to go back to.
const FieldThen = "then"

// installOffer draws how to put the app on the home screen, where the phone has found that it may be offered.
func installOffer(f Frame) g.Node {
	if !f.Device.Install {
		return nil
	}
	return Panel("", "", h.ID("install"),
		PanelHead("phone", "Keep it on the home screen", ""),
		installSteps(f.Device),
		PostForm(ByCore, "no-install", address.Phone.Path(),
			Hidden(FieldAct, ActNoInstall),
			Hidden(FieldThen, f.Path),
			Submit(Quiet, g.Text("Not now"))))
}

// installSteps lists the steps on this phone's platform.
func installSteps(d Device) g.Node {
	var steps []string
	switch d.Platform {
	case IPhone, IPad:
		steps = []string{"Tap Share, the square with an arrow. It may be behind three dots.",
			"Scroll to Add to Home Screen. Tap it, then Add.", homeScreen}
	case MacSafari:
		steps = []string{"Choose File, then Add to Dock.", "Open Garlandry from the Dock."}
	case AndroidFirefox:
		steps = []string{"Open the menu, the three dots.", "Tap Add app to Home screen.", homeScreen}
	case Android:
		steps = []string{"Open the menu, the three dots.", "Tap Install app or Add to Home screen, then Install.", homeScreen}
	case Chromium:
		steps = []string{"Click the install sign at the right of the address.",
			"Or open the browser’s menu and choose Install."}
	default:
		return h.P(g.Text("Choose Install or Add to Home Screen in the browser’s menu."))
	}
	return g.Group{
		h.Ol(h.Class("steps"), g.Map(steps, func(s string) g.Node { return h.Li(g.Text(s)) })),
		Button(Primary, g.Attr("hidden"), g.Attr("data-install"), g.Text("Install")),
		g.Iff(d.Platform.OwnStorage(), appCode),
	}
}

const homeScreen = "Open Garlandry from the home screen."

// appCode says how to get into an installed app that knows nothing of the browser it came from.
func appCode() g.Node { return g.Group{Soft("It may ask for a code."), appCodeForm()} }
