package job

import (
	"math"
	"strings"
)

// Limits of photos. Those that are shared are stored with the job.
const (
	MostPhotoBytes   = 300_000 // of one
	MostPhotoPX      = 1600    // the longer side of one that a phone or the server makes
	MostSharedPhotos = 12      // of a job
)

// Photo is a picture of the place where pieces will hang. Its bytes are not in the log: phone and server keep them
// under their hash, the server only while the photo is shared.
type Photo struct {
	ID       string `json:"-"`
	Name     string `json:"name"`
	Hash     string `json:"hash"` // SHA-256 of the bytes, in lower-case hex
	Type     string `json:"type"` // image/jpeg, image/webp
	Bytes    int    `json:"bytes"`
	WidthPX  int    `json:"width_px"`
	HeightPX int    `json:"height_px"`
	Piece    string `json:"piece"` // that is drawn over it, an id; empty: all pieces

	// Two points on the wall in percent of width and height, from the left and from the top, and what is between them.
	FirstXPct  float64 `json:"first_x_pct"`
	FirstYPct  float64 `json:"first_y_pct"`
	SecondXPct float64 `json:"second_x_pct"`
	SecondYPct float64 `json:"second_y_pct"`
	DistanceMM float64 `json:"distance_mm"` // 0: not measured yet

	AtXPct float64 `json:"at_x_pct"` // where the middle of what is drawn stands
	AtYPct float64 `json:"at_y_pct"` // where its foot stands
	Light  float64 `json:"light"`    // mean lightness L* of the photo, 0 black to 100 white
	Shared bool    `json:"shared"`   // with the crew; its bytes are on the server
	Order  float64 `json:"order"`
}

// photoNoun is in no job file, since the bytes are not.
var photoNoun = Noun{Name: "photo", Label: "Photo", Fields: []Field{
	{Name: "name", Label: "Name", Kind: Text, Required: true, Max: 80, Help: "What it shows: wall behind the cake."},
	{Name: "hash", Label: "Hash", Kind: Text, Required: true, Max: 64},
	{Name: "type", Label: "Type", Kind: OneOf, Default: `"image/jpeg"`,
		Choices: []Choice{{"image/jpeg", "JPEG"}, {"image/webp", "WebP"}}},
	{Name: "bytes", Label: "Bytes", Kind: Whole, Min: 1, Max: MostPhotoBytes, Required: true},
	{Name: "width_px", Label: "Width in pixels", Kind: Whole, Min: 1, Max: MostPhotoPX, Required: true},
	{Name: "height_px", Label: "Height in pixels", Kind: Whole, Min: 1, Max: MostPhotoPX, Required: true},
	{Name: "piece", Label: "Piece on it", Kind: Reference, Refers: "piece"},
	{Name: "first_x_pct", Label: "First point across, %", Kind: Number, Max: 100, Default: "30"},
	{Name: "first_y_pct", Label: "First point down, %", Kind: Number, Max: 100, Default: "50"},
	{Name: "second_x_pct", Label: "Second point across, %", Kind: Number, Max: 100, Default: "70"},
	{Name: "second_y_pct", Label: "Second point down, %", Kind: Number, Max: 100, Default: "50"},
	{Name: "distance_mm", Label: "Between the points", Kind: Length, Max: 50000, Default: "0",
		Help: "Measured on the wall."},
	{Name: "at_x_pct", Label: "Middle across, %", Kind: Number, Min: -100, Max: 200, Default: "50"},
	{Name: "at_y_pct", Label: "Foot down, %", Kind: Number, Min: -100, Max: 200, Default: "90"},
	{Name: "light", Label: "Light", Kind: Number, Max: 100, Default: "50", Help: "0 dark, 50 usual, 100 bright."},
	{Name: "shared", Label: "Shared with the crew", Kind: Flag, Default: "false"},
	orderField,
	removedField,
}}

// readPhotos reads the photos whose bytes can be told by their hash.
func (j *Job) readPhotos(shared *State) {
	list(shared, &photoNoun, func(id string) any {
		j.Photos = append(j.Photos, Photo{ID: id})
		return &j.Photos[len(j.Photos)-1]
	})
	valid := j.Photos[:0]
	for _, p := range j.Photos {
		if ValidHash(p.Hash) {
			valid = append(valid, p)
		}
	}
	j.Photos = valid
}

// ValidHash reports whether text is a SHA-256 in lower-case hex.
func ValidHash(text string) bool {
	return len(text) == 64 && strings.Trim(text, "0123456789abcdef") == ""
}

// Photo returns the photo with the id.
func (j *Job) Photo(id string) (Photo, bool) {
	for _, p := range j.Photos {
		if p.ID == id {
			return p, true
		}
	}
	return Photo{}, false
}

// SharedPhotos returns the photos that are stored with the job: the first [MostSharedPhotos] that are shared.
func (j *Job) SharedPhotos() []Photo {
	var all []Photo
	for _, p := range j.Photos {
		if p.Shared && len(all) < MostSharedPhotos {
			all = append(all, p)
		}
	}
	return all
}

// ShowsPhoto reports whether a person gets to see the photo: a shared one everybody of the job, another one only who
// took it. Owners are one person.
func (j *Job) ShowsPhoto(p *Photo, role Role, name string) bool {
	readings := j.State.Register("photo/"+p.ID, "hash").Readings
	return p.Shared || len(readings) > 0 && readings[0].Author.Role == role &&
		(role == Owner || readings[0].Author.Name == name)
}

// PXPerMM returns how many of the photo's pixels a millimetre on the wall takes up; 0 while that is not known. Points
// closer than a fiftieth of the longer side say nothing.
func (p *Photo) PXPerMM() float64 {
	across := (p.SecondXPct - p.FirstXPct) / 100 * float64(p.WidthPX)
	down := (p.SecondYPct - p.FirstYPct) / 100 * float64(p.HeightPX)
	apart := math.Sqrt(float64(across*across) + float64(down*down))
	if !(p.DistanceMM > 0) || apart < float64(max(p.WidthPX, p.HeightPX))/50 {
		return 0
	}
	return apart / p.DistanceMM
}

// ReadPhotos returns a job with nothing but its photos and state.
func ReadPhotos(id string, shared *State) Job {
	j := Job{ID: id, State: shared, Private: NewState()}
	j.readPhotos(shared)
	return j
}

// RemovedPhoto is a photo that was removed, and when: Unix milliseconds.
type RemovedPhoto struct {
	Photo
	At int64
}

// RemovedPhotos returns the photos that were removed.
func (j *Job) RemovedPhotos() []RemovedPhoto {
	var all []RemovedPhoto
	for _, entity := range j.State.Entities(photoNoun.Name) {
		removed := j.State.Register(entity, "removed").Readings
		if !j.State.Removed(entity) || len(removed) == 0 {
			continue
		}
		p := RemovedPhoto{Photo{ID: strings.TrimPrefix(entity, "photo/")}, removed[0].Effective}
		if read(j.State, &photoNoun, entity, &p.Photo); ValidHash(p.Hash) {
			all = append(all, p)
		}
	}
	return all
}
