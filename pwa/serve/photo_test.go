package serve_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"image"
	"image/jpeg"
	"image/png"
	"mime/multipart"
	"net/url"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wall is a noisy JPEG of more than two parts.
func wall(t *testing.T) []byte {
	t.Helper()
	m := image.NewGray(image.Rect(0, 0, 500, 400))
	for i := range m.Pix {
		m.Pix[i] = uint8(i * i >> 3)
	}
	var b bytes.Buffer
	require.NoError(t, jpeg.Encode(&b, m, &jpeg.Options{Quality: 97}))
	require.Greater(t, b.Len(), 140<<10)
	require.Less(t, b.Len(), 300000)
	return b.Bytes()
}

// addPhoto adds a photo to "reading" as a phone's form does, and returns its page and the address of its bytes.
func (p *phone) addPhoto(data []byte) (page, file string) {
	sum := sha256.Sum256(data)
	hash := hex.EncodeToString(sum[:])
	got := p.post("/jobs/reading/photos", url.Values{"name": {"blue room.jpg"}, "hash": {hash}, "type": {"image/jpeg"},
		"bytes": {strconv.Itoa(len(data))}, "width_px": {"500"}, "height_px": {"400"}, "mean": {"119 119 119"}})
	require.Equal(p.t, 303, got.StatusCode, got.body)
	return got.Header.Get("Location"), "/api/v1/jobs/reading/photos/" + hash
}

func (p *phone) part(file string, from int, data []byte) answer {
	r := p.request("POST", file+"/parts?from="+strconv.Itoa(from), bytes.NewReader(data))
	r.Header.Set("Content-Type", "application/octet-stream")
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.send(r)
}

type wantedPhotos struct {
	Part   int
	Only   string
	Wanted []struct {
		URL  string
		Have int
	}
	Gone []string
}

func (p *phone) wantedPhotos() (w wantedPhotos) {
	got := p.get("/api/v1/photos")
	require.Equal(p.t, 200, got.StatusCode, got.body)
	require.NoError(p.t, json.Unmarshal([]byte(got.body), &w))
	return w
}

// TestAPhotoIsSharedInParts goes the way of a phone: it adds a photo, shares it, asks what is wanted and sends it.
func TestAPhotoIsSharedInParts(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	data := wall(t)
	page, file := owner.addPhoto(data)
	assert.Empty(t, owner.wantedPhotos().Wanted, "it is not shared")
	assert.Equal(t, 404, owner.part(file, 0, data[:1000]).StatusCode, "the server takes no byte of it")
	assert.Equal(t, 404, helper.get(page).StatusCode, "and a helper does not see it")
	assert.NotContains(t, helper.get("/jobs/reading/photos").body, "blue room")
	light, known := owner.get(page).doc(t).Find(`[name=light]`).Attr("value")
	assert.True(t, known)
	assert.Equal(t, "50", light, "grey 119 is L* 50.0 (from memory: sRGB's middle grey)")

	require.Equal(t, 303, owner.post(page, url.Values{"act": {"share"}}).StatusCode)
	wanted := owner.wantedPhotos()
	require.Len(t, wanted.Wanted, 1)
	assert.Equal(t, file, wanted.Wanted[0].URL)
	require.LessOrEqual(t, 2*wanted.Part, len(data))
	assert.Equal(t, 200, owner.part(file, 0, data[:wanted.Part]).StatusCode)
	assert.Equal(t, wanted.Part, owner.wantedPhotos().Wanted[0].Have)
	again := owner.part(file, 0, data[:wanted.Part])
	assert.Equal(t, 409, again.StatusCode)
	assert.JSONEq(t, `{"have":`+strconv.Itoa(wanted.Part)+`,"whole":false}`, again.body)
	assert.Equal(t, 404, helper.get(file).StatusCode, "half a photo is none")
	for at := wanted.Part; at < len(data); at += wanted.Part {
		require.Equal(t, 200, owner.part(file, at, data[at:min(at+wanted.Part, len(data))]).StatusCode)
	}
	assert.Empty(t, owner.wantedPhotos().Wanted)
	got := helper.get(file)
	assert.True(t, string(data) == got.body, "every byte of it")
	for name, want := range map[string]string{"Content-Type": "image/jpeg", "X-Content-Type-Options": "nosniff",
		"Content-Security-Policy": "default-src 'none'", "Cache-Control": "no-store",
		"Cross-Origin-Resource-Policy": "same-origin"} {
		assert.Equal(t, want, got.Header.Get(name), name)
	}
	assert.NotEmpty(t, got.Header.Get("ETag"), "the phone tells by it what came from the server")
	assert.Contains(t, helper.get("/jobs/reading/photos").body, "blue room")
}

func TestWhoMaySendPhotos(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	data := wall(t)
	page, file := owner.addPhoto(data)
	require.Equal(t, 303, owner.post(page, url.Values{"act": {"share"}}).StatusCode)
	before := s.standing()
	assert.Equal(t, 403, helper.part(file, 0, data[:1000]).StatusCode)
	assert.Equal(t, 403, helper.get(file+"/parts").StatusCode)
	assert.Equal(t, 403, helper.post(page, url.Values{"act": {"remove"}}).StatusCode)
	assert.Equal(t, 403, helper.post("/jobs/reading/photos", url.Values{"hash": {strings.Repeat("a", 64)}}).StatusCode)
	assert.Equal(t, 403, helper.uploadPhoto("/jobs/reading/photos/send", data).StatusCode)
	assert.Equal(t, 404, helper.uploadPhoto("/jobs/other/photos/send", data).StatusCode)
	assert.Equal(t, 401, s.stranger().part(file, 0, data[:1000]).StatusCode)
	assert.Equal(t, 401, s.stranger().get(file).StatusCode)
	other := strings.Replace(file, "reading", "other", 1)
	assert.Equal(t, 404, owner.part(other, 0, data[:1000]).StatusCode)
	assert.Equal(t, 404, helper.get(other).StatusCode)
	assert.Equal(t, "/api/v1/jobs/reading/", helper.wantedPhotos().Only, "a helper's phone keeps no other job's photos")
	assert.Equal(t, 415, owner.sync(file+"/parts?from=0", "{}").StatusCode, "a foreign page could send text")
	foreign := owner.request("POST", file+"/parts?from=0", bytes.NewReader(data[:1000]))
	foreign.Header.Set("Content-Type", "application/octet-stream")
	foreign.Header.Set("Sec-Fetch-Site", "cross-site")
	assert.Equal(t, 403, owner.send(foreign).StatusCode)
	assert.Equal(t, 413, owner.part(file, 0, make([]byte, 64<<10+1)).StatusCode)
	for _, from := range []string{"-1", "x", ""} {
		r := owner.request("POST", file+"/parts?from="+from, bytes.NewReader(data[:10]))
		r.Header.Set("Content-Type", "application/octet-stream")
		assert.Equal(t, 400, owner.send(r).StatusCode, from)
	}
	assert.Equal(t, before, s.standing())
}

// uploadPhoto sends a file as a browser without scripts does.
func (p *phone) uploadPhoto(path string, file []byte) answer {
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	part, err := form.CreateFormFile("photo", "hall wall.png")
	require.NoError(p.t, err)
	_, err = part.Write(file)
	require.NoError(p.t, err)
	require.NoError(p.t, form.Close())
	r := p.request("POST", path, &body)
	r.Header.Set("Content-Type", form.FormDataContentType())
	r.Header.Set("Sec-Fetch-Site", "same-origin")
	return p.send(r)
}

// TestAPhotoWithoutScripts uploads a PNG from a browser that cannot make it smaller itself.
func TestAPhotoWithoutScripts(t *testing.T) {
	s := newSite(t)
	owner := s.owner()
	helper, _ := s.helper(owner)
	m, err := jpeg.Decode(bytes.NewReader(wall(t)))
	require.NoError(t, err)
	var file bytes.Buffer
	require.NoError(t, png.Encode(&file, m))
	got := owner.uploadPhoto("/jobs/reading/photos/send", file.Bytes())
	require.Equal(t, 303, got.StatusCode, got.body)
	page := owner.get(got.Header.Get("Location")).doc(t)
	assert.Equal(t, "hall wall", page.Find("h1").Text())
	assert.Contains(t, page.Text(), "Shared with the crew", "at once, as its button says")
	src, there := page.Find("image").Attr("href")
	require.True(t, there)
	photo := helper.get(src)
	assert.Equal(t, "image/jpeg", photo.Header.Get("Content-Type"))
	_, err = jpeg.Decode(strings.NewReader(photo.body))
	assert.NoError(t, err)

	for name, bad := range map[string][]byte{"a text": []byte("not a photo"), "nothing": nil} {
		got := owner.uploadPhoto("/jobs/reading/photos/send", bad)
		assert.Equal(t, 422, got.StatusCode, name)
		assert.Contains(t, got.doc(t).Find("#new-photo .wrong").Text(), "could not be read", name)
	}
}
