package store

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"

	"garlandry/app/job"
	"garlandry/app/photo"

	"go.etcd.io/bbolt"
)

// Keys inside a job's bucket of photos; the hash of the photo follows. The bytes stand beside the log: neither the
// journal nor a seal covers them. Whoever reads them compares their hash, and what is missing comes from a phone again.
const (
	keyWhole = "whole/" // when it was complete (8 bytes), then all its bytes
	keyPart  = "part/"  // when the last part came (8 bytes), then the bytes up to there
)

const timeBytes = 8

// PhotoBytes says how much of a shared photo the server has.
type PhotoBytes struct {
	Have  int  // bytes from the beginning
	Whole bool // all of them
}

// PhotoBytes returns how much the server has of a photo that is shared in the job. Who may not share photos gets
// [ErrForbidden], an unknown photo one that wraps [ErrNotFound].
func (s *Store) PhotoBytes(session Session, jobID, hash string) (there PhotoBytes, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		if _, err := s.sharedPhoto(tx, session, jobID, hash, true); err != nil {
			return err
		}
		there, _, err = photoIn(tx, jobID, hash)
		return err
	})
	return there, err
}

// Photo returns the bytes of a photo that is shared in the job, and its media type, to anybody of the job. It returns
// an error that wraps [ErrNotFound] while not all bytes are there. Bytes that changed on disk count as missing.
func (s *Store) Photo(session Session, jobID, hash string) (data []byte, kind string, err error) {
	err = s.db.View(func(tx *bbolt.Tx) error {
		if _, err := s.sharedPhoto(tx, session, jobID, hash, false); err != nil {
			return err
		}
		there, stored, err := photoIn(tx, jobID, hash)
		if err == nil && !there.Whole {
			err = notFound("photo", hash)
		}
		data = bytes.Clone(stored)
		return err
	})
	if err != nil {
		return nil, "", err
	}
	if kind, err = photo.Check(data); err == nil && hashOfBytes(data) == hash {
		return data, kind, nil
	}
	err = s.update(func(tx *bbolt.Tx, _ *commit) error { return dropPhoto(tx, jobID, hash) })
	return nil, "", errors.Join(notFound("photo", hash), err)
}

// PutPhoto adds the next bytes of a shared photo, which begin at an offset. It returns how much there is afterwards,
// also with [ErrPhotoPlace], where the part begins elsewhere. The last part completes the photo: if its size, hash or
// kind is not as it should be, nothing of it is kept and the error wraps [ErrPhoto].
func (s *Store) PutPhoto(ctx context.Context, session Session, jobID, hash string, from int,
	part []byte) (there PhotoBytes, err error) {
	if err := ctx.Err(); err != nil {
		return there, err
	}
	var wrong error
	err = s.update(func(tx *bbolt.Tx, _ *commit) error {
		p, err := s.sharedPhoto(tx, session, jobID, hash, true)
		if err != nil {
			return err
		}
		var stored []byte
		if there, stored, err = photoIn(tx, jobID, hash); err != nil {
			return err
		}
		switch {
		case there.Whole:
			return nil
		case from != there.Have:
			return ErrPhotoPlace
		case there.Have+len(part) > p.Bytes:
			wrong = fmt.Errorf("%w: it has more than %d bytes", ErrPhoto, p.Bytes)
			return dropPhoto(tx, jobID, hash)
		}
		data := append(bytes.Clone(stored), part...)
		if there = (PhotoBytes{Have: len(data), Whole: len(data) == p.Bytes}); !there.Whole {
			return s.keepPhoto(tx, jobID, keyPart+hash, data)
		}
		if wrong = fits(data, hash); wrong != nil {
			there = PhotoBytes{}
			return dropPhoto(tx, jobID, hash)
		}
		if err := dropPhoto(tx, jobID, hash); err != nil {
			return err
		}
		return s.keepPhoto(tx, jobID, keyWhole+hash, data)
	})
	return there, errors.Join(err, wrong)
}

// AddPhoto stores the bytes of a photo that the server made itself, before the operations that share it. Without these
// a later sweep drops it. The job may not have [job.MostSharedPhotos] yet.
func (s *Store) AddPhoto(ctx context.Context, session Session, jobID string, data []byte) (hash string, err error) {
	if err := ctx.Err(); err != nil {
		return "", err
	}
	hash = hashOfBytes(data)
	return hash, s.update(func(tx *bbolt.Tx, _ *commit) error {
		j, err := s.photosFor(tx, session, jobID, true)
		if err != nil {
			return err
		}
		if len(j.SharedPhotos()) >= job.MostSharedPhotos {
			return ErrPhotosFull
		}
		return s.keepPhoto(tx, jobID, keyWhole+hash, data)
	})
}

// fits returns an error that wraps [ErrPhoto] unless the bytes are a photo of the hash.
func fits(data []byte, hash string) error {
	if hashOfBytes(data) != hash {
		return fmt.Errorf("%w: it is not the photo that was announced", ErrPhoto)
	}
	if _, err := photo.Check(data); err != nil {
		return fmt.Errorf("%w: %w", ErrPhoto, err)
	}
	return nil
}

func hashOfBytes(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// photosFor reads a job for what a session does with its photos. A closed session gets [ErrClosed].
func (s *Store) photosFor(tx *bbolt.Tx, session Session, jobID string, writes bool) (j job.Job, err error) {
	current, err := s.enter(tx, session, jobID)
	if err != nil {
		return j, err
	}
	if current.Closed != "" {
		return j, ErrClosed
	}
	if err := s.live(tx, jobID); err != nil {
		return j, err
	}
	if writes && !current.Role.May(job.Set, "photo/x") {
		return j, fmt.Errorf("share a photo: %w", ErrForbidden)
	}
	return s.photosOf(tx, jobID)
}

// photosOf reads a job's shared log.
func (s *Store) photosOf(tx *bbolt.Tx, jobID string) (job.Job, error) {
	if tx.Bucket(bucketJobs).Get([]byte(jobID)) == nil {
		return job.Job{}, notFound("job", jobID)
	}
	f, _, err := s.fold(tx, jobID)
	if err != nil {
		return job.Job{}, err
	}
	return job.ReadPhotos(jobID, f.State), nil
}

// sharedPhoto returns the photo of a job that has the hash and is stored with it.
func (s *Store) sharedPhoto(tx *bbolt.Tx, session Session, jobID, hash string, writes bool) (job.Photo, error) {
	j, err := s.photosFor(tx, session, jobID, writes)
	if err != nil {
		return job.Photo{}, err
	}
	for _, p := range j.SharedPhotos() {
		if p.Hash == hash {
			return p, nil
		}
	}
	for _, p := range j.Photos {
		if p.Shared && p.Hash == hash {
			return p, ErrPhotosFull
		}
	}
	return job.Photo{}, notFound("photo", hash)
}

// photoIn returns what is stored of a photo. The bytes are valid in the transaction only.
func photoIn(tx *bbolt.Tx, jobID, hash string) (PhotoBytes, []byte, error) {
	b := tx.Bucket(bucketPhotos)
	if b != nil {
		b = b.Bucket([]byte(jobID))
	}
	if b == nil {
		return PhotoBytes{}, nil, nil
	}
	for _, key := range [...]string{keyWhole, keyPart} {
		switch raw := b.Get([]byte(key + hash)); {
		case raw != nil && len(raw) < timeBytes:
			return PhotoBytes{}, nil, fmt.Errorf("%w: photo %s", ErrDamaged, hash)
		case raw != nil:
			return PhotoBytes{len(raw) - timeBytes, key == keyWhole}, raw[timeBytes:], nil
		}
	}
	return PhotoBytes{}, nil, nil
}

// keepPhoto stores bytes of a photo, and when.
func (s *Store) keepPhoto(tx *bbolt.Tx, jobID, key string, data []byte) error {
	all, err := tx.CreateBucketIfNotExists(bucketPhotos)
	if err != nil {
		return fmt.Errorf("keep photo: %w", err)
	}
	b, err := all.CreateBucketIfNotExists([]byte(jobID))
	if err != nil {
		return fmt.Errorf("keep photo: %w", err)
	}
	return b.Put([]byte(key), append(number(uint64(s.options.Now())), data...))
}

// dropPhoto deletes what is stored of a photo.
func dropPhoto(tx *bbolt.Tx, jobID, hash string) error {
	b := tx.Bucket(bucketPhotos)
	if b != nil {
		b = b.Bucket([]byte(jobID))
	}
	if b == nil {
		return nil
	}
	return errors.Join(b.Delete([]byte(keyWhole+hash)), b.Delete([]byte(keyPart+hash)))
}
