package serve

import (
	"errors"
	"io"
	"net/http"
	"strconv"
	"strings"

	"garlandry/app/photo"
	"garlandry/app/store"
	"garlandry/pwa/address"
	"garlandry/pwa/form"
	"garlandry/pwa/page"
	"garlandry/pwa/view"

	"github.com/labstack/echo/v4"
)

// Limits of photos on their way here.
const (
	photoPartBytes = 64 << 10 // of one part from a phone
	photoFormBytes = 16 << 20 // of a photo as the camera made it, from a browser that cannot make it smaller
)

// routesOfPhotos registers how photos come and go. Phones send them beside the exchange of operations, in parts, so
// that no tick waits for one.
func (s *Server) routesOfPhotos(e *echo.Echo, syncs, forms *limiter) {
	api := e.Group(address.API, s.sameSite, s.member)
	file, parts := photoRoute(address.PhotoFile), photoRoute(address.PhotoParts)
	api.GET(below(address.API, address.PhotosWanted), s.photosWanted, limited(syncs, bySession))
	api.GET(file, s.photoFile, limited(forms, bySession))
	api.GET(parts, s.photoParts, limited(syncs, bySession))
	api.POST(parts, s.putPhoto, onlyBytes, bodyLimit(photoPartBytes), limited(syncs, bySession))
	e.POST(address.SendPhoto.Route(), s.sendPhoto, s.sameSite, s.member, bodyLimit(photoFormBytes),
		limited(forms, bySession))
}

// photoRoute is the route of a page with a hash, relative to the addresses for programs.
func photoRoute(p address.Page) string {
	return strings.Replace(below(address.API, p), "*", ":hash", 1)
}

// onlyBytes requires a body of plain bytes, which a foreign page cannot send without a preflight request.
func onlyBytes(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		if c.Request().Header.Get("Content-Type") != "application/octet-stream" {
			return &failure{errKind.status, errKind.code,
				"Send bytes here (Content-Type: application/octet-stream). Nothing was changed.", 0}
		}
		return next(c)
	}
}

// photosWanted tells a phone which photos to send, from which byte on, and which to drop.
func (s *Server) photosWanted(c echo.Context) error {
	session, _ := sessionOf(c)
	if session.Closed != "" {
		return errClosed
	}
	wanted, gone, err := s.Store.Photos(session)
	if err != nil {
		return err
	}
	type place struct {
		URL  string `json:"url"`
		Have int    `json:"have"`
	}
	answer := struct {
		Part   int      `json:"part"` // the most bytes to send at once
		Only   string   `json:"only"` // how the addresses begin that this phone keeps photos of
		Wanted []place  `json:"wanted"`
		Gone   []string `json:"gone"`
	}{photoPartBytes, address.API + "/jobs/", []place{}, []string{}}
	if session.Job != "" {
		answer.Only += session.Job + "/"
	}
	for _, w := range wanted {
		answer.Wanted = append(answer.Wanted, place{address.PhotoFile.Path(w.Job, w.Hash), w.Have})
	}
	for _, g := range gone {
		answer.Gone = append(answer.Gone, address.PhotoFile.Path(g.Job, g.Hash))
	}
	return c.JSON(http.StatusOK, answer)
}

// photoFile sends a shared photo to anybody of its job. Browsers do not store it: the app keeps it in a cache of its
// own, which a sign-out empties.
func (s *Server) photoFile(c echo.Context) error {
	session, _ := sessionOf(c)
	hash := c.Param("hash")
	data, kind, err := s.Store.Photo(session, c.Param("job"), hash)
	if err != nil {
		return err
	}
	h := c.Response().Header()
	h.Set("Content-Security-Policy", "default-src 'none'")
	h.Set("ETag", strconv.Quote(hash))
	return c.Blob(http.StatusOK, kind, data)
}

// photoHave is the answer to who sends a photo: how much of it is here.
type photoHave struct {
	Have  int  `json:"have"`
	Whole bool `json:"whole"`
}

// photoParts says how much of a photo is here.
func (s *Server) photoParts(c echo.Context) error {
	session, _ := sessionOf(c)
	there, err := s.Store.PhotoBytes(session, c.Param("job"), c.Param("hash"))
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, photoHave(there))
}

// putPhoto takes the part of a photo that begins at a byte. If another one is next, it says so with status 409.
func (s *Server) putPhoto(c echo.Context) error {
	session, _ := sessionOf(c)
	from, err := strconv.Atoi(c.QueryParam("from"))
	if err != nil || from < 0 {
		return errBadForm
	}
	part, err := io.ReadAll(c.Request().Body)
	if err != nil {
		return err
	}
	there, err := s.Store.PutPhoto(c.Request().Context(), session, c.Param("job"), c.Param("hash"), from, part)
	if errors.Is(err, store.ErrPhotoPlace) {
		return c.JSON(http.StatusConflict, photoHave(there))
	}
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, photoHave(there))
}

// sendPhoto takes a photo from a browser that cannot make and keep one itself: without scripts, or over plain http. It
// is shared at once, as the button says.
func (s *Server) sendPhoto(c echo.Context) error {
	session, _ := sessionOf(c)
	id := c.Param("job")
	if session.Closed != "" {
		return errClosed
	}
	if !sees(session, id) {
		return errNotFound
	}
	values, err := s.photoForm(c, session, id)
	if err != nil {
		return err
	}
	reply := page.Post(s.deps(c), address.Photos.Path(id), values)
	for _, w := range reply.Writes {
		if err := s.write(c, session, w); err != nil {
			return err
		}
	}
	return s.replyPost(c, reply)
}

// photoForm stores an uploaded photo and returns the form that a phone would fill in for it; one without a photo for a
// file that is none.
func (s *Server) photoForm(c echo.Context, session store.Session, id string) (form.Values, error) {
	values := form.Values{view.FieldShared: {"1"}}
	header, err := c.FormFile(view.FieldPhoto)
	if errors.Is(err, echo.ErrStatusRequestEntityTooLarge) {
		return nil, errTooLarge
	}
	if err != nil {
		return values, nil
	}
	file, err := fileText(header)
	if err != nil {
		return nil, errBadForm
	}
	made, err := photo.Make([]byte(file))
	if err != nil {
		return values, nil
	}
	hash, err := s.Store.AddPhoto(c.Request().Context(), session, id, made.JPEG)
	if err != nil && !errors.Is(err, store.ErrPhotosFull) { // the page says so
		return nil, err
	}
	for name, value := range map[string]string{"name": header.Filename, "hash": hash, "type": "image/jpeg",
		"bytes": strconv.Itoa(len(made.JPEG)), "width_px": strconv.Itoa(made.WidthPX),
		"height_px": strconv.Itoa(made.HeightPX), view.FieldMean: made.Mean} {
		values.Set(name, value)
	}
	return values, nil
}
