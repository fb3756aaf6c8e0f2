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
		steps = []string{"Tap Share, the square with an arrow.", "Tap Add to Home Screen, then Add.",
			"Open Garlandry from there."}
	case MacSafari:
		steps = []string{"Choose File, then Add to Dock.", "Open Garlandry from the Dock."}
	case AndroidFirefox:
		steps = []string{"Open the menu, the three dots.", "Tap Add app to Home screen.", "Open Garlandry from there."}
	case Android:
		steps = []string{"Open the menu, the three dots.", "Tap Add to Home screen, then Install.",
			"Open Garlandry from there."}
	case Chromium:
		steps = []string{"Click the install sign at the right of the address.",
			"Or open the browser’s menu and choose Install."}
	default:
		return h.P(g.Text("Choose Install or Add to Home Screen in the browser’s menu."))
	}
	return g.Group{
		h.Ol(h.Class("steps"), g.Map(steps, func(s string) g.Node { return h.Li(g.Text(s)) })),
		Button(Primary, g.Attr("hidden"), g.Attr("data-install"), g.Text("Install")),
		g.Iff(d.Platform.OwnStorage(), func() g.Node {
			return startsEmpty()
		}),
	}
}

// startsEmpty says how to get back in where the installed app knows nothing of the browser it came from.
func startsEmpty() g.Node {
	return Soft("It starts empty? Paste your link there: a helper’s works again, an owner makes a new one under Share.")
}
