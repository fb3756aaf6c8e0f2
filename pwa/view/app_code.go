package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"

	"garlandry/pwa/address"
)

// FieldAppCode is the field for the short code of an installed app.
const FieldAppCode = "appcode"

// appCodeForm draws the button that makes a short code to type into the installed app.
func appCodeForm() g.Node {
	return PostForm(ByServer, "app-code", address.AppCode.Path(), h.Class("deed"),
		Submit(Plain, g.Text("Show a code for the installed app")))
}

// AppCode draws a short code once, with how to use it.
func AppCode(f Frame, code string) g.Node {
	open := "Open Garlandry where you installed it."
	if f.Device.Platform == IPhone {
		open = "Open Garlandry from the Home Screen."
	}
	return Narrow(Heading("", LabelAppCode),
		Panel("", "", h.ID("the-code"), h.Role("status"),
			h.P(h.Class("big"), h.B(g.Text(InGroups(code)))),
			h.Ol(h.Class("steps"), h.Li(g.Text(open)), h.Li(g.Text("Type this code there.")),
				h.Li(g.Text("Tap Open."))),
			Soft("Works once, within 10 minutes. "+opensWhat(f.Role)+" Show it to nobody.")),
		LinkBelow(address.Devices.Path(), "back", LabelDevices, g.Attr("data-server")))
}

// InGroups writes a code in groups of three, as it is easiest to read and type.
func InGroups(code string) string {
	grouped := ""
	for i, r := range code {
		if i > 0 && i%3 == 0 {
			grouped += " "
		}
		grouped += string(r)
	}
	return grouped
}

// typeAppCode draws the field for the code, on the first page of an app that knows nobody. It is folded into a line,
// since most other people come with a link.
func typeAppCode(typed JoinForm) g.Node {
	return Folded("just-installed", "Just installed? Type a code", typed.AppCode+typed.AppCodeError != "",
		PostForm(ByServer, "type-code", address.JoinTyped.Path(), Fields(
			textInput("typed-code", FieldAppCode, LabelAppCode, "In your browser: This phone, Show a code.", typed.AppCode,
				typed.AppCodeError, h.Required(), h.AutoComplete("off"), g.Attr("autocapitalize", "characters"),
				g.Attr("spellcheck", "false"), h.MaxLength("20"), g.Attr("enterkeyhint", "go")),
			Submit(Primary, g.Text("Open")))))
}
