package view

import (
	g "maragu.dev/gomponents"
	h "maragu.dev/gomponents/html"
)

// plainHTTP says what the app cannot do over plain http, on the page that people join by and on "This phone".
func plainHTTP(f Frame) g.Node {
	if !f.OverHTTP {
		return nil
	}
	return Panel("", "", h.ID("plain-http"),
		PanelHead("care", "This address is plain http", ""),
		h.P(g.Text("The app needs signal here and can’t be installed. Others on this network can read what you send. "+
			"An https address has none of these limits.")))
}
