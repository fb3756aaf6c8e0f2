package shell

import (
	"encoding/json"
)

type icon struct {
	Src     string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose,omitempty"`
}

type screenshot struct {
	Src        string `json:"src"`
	Sizes      string `json:"sizes"`
	Type       string `json:"type"`
	FormFactor string `json:"form_factor"`
	Label      string `json:"label"`
}

// Shortcut is an entry of the menu that the installed app's icon opens.
type Shortcut struct {
	Name string `json:"name"`
	URL  string `json:"url"`
}

type manifest struct {
	ID              string       `json:"id"`
	Name            string       `json:"name"`
	ShortName       string       `json:"short_name"`
	Description     string       `json:"description"`
	Lang            string       `json:"lang"`
	StartURL        string       `json:"start_url"`
	Scope           string       `json:"scope"`
	Display         string       `json:"display"`
	Orientation     string       `json:"orientation"`
	BackgroundColor string       `json:"background_color"`
	ThemeColor      string       `json:"theme_color"`
	Categories      []string     `json:"categories"`
	Icons           []icon       `json:"icons"`
	Screenshots     []screenshot `json:"screenshots"`
	Shortcuts       []Shortcut   `json:"shortcuts,omitempty"`
}

// Manifest returns the web app manifest (W3C Web Application Manifest) that starts the installed app at startURL, with
// shortcuts. Its id never changes, so it is always the same app.
func (s *Shell) Manifest(startURL string, shortcuts ...Shortcut) ([]byte, error) {
	png := func(name, sizes, purpose string) icon {
		return icon{Src: s.URL("icons/" + name), Sizes: sizes, Type: "image/png", Purpose: purpose}
	}
	return json.MarshalIndent(manifest{
		ID:              "/",
		Name:            "Garlandry",
		ShortName:       "Garlandry",
		Lang:            "en",
		StartURL:        startURL,
		Scope:           "/",
		Display:         "standalone",
		Orientation:     "any",
		Description:     "From the promise of a look to open doors: counts, packing and cards for decorating with balloons.",
		BackgroundColor: "#faf6f0",
		ThemeColor:      "#faf6f0",
		Categories:      []string{"productivity", "utilities"},
		Icons: []icon{png("icon-192.png", "192x192", "any"), png("icon-512.png", "512x512", "any"),
			png("maskable-512.png", "512x512", "maskable"),
			{Src: s.URL("icons/icon.svg"), Sizes: "any", Type: "image/svg+xml", Purpose: "any"}},
		Screenshots: []screenshot{
			{s.URL("icons/screenshot-narrow.png"), "780x1688", "image/png", "narrow",
				"A card: what to make, how, and how many are done"},
			{s.URL("icons/screenshot-wide.png"), "1280x800", "image/png", "wide",
				"A job: the window, what is next, every piece as it grows"}},
		Shortcuts: shortcuts,
	}, "", "  ")
}
