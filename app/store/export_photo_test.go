package store

import "go.etcd.io/bbolt"

// HashOfPhoto returns the hash under which a photo is stored.
func HashOfPhoto(data []byte) string { return hashOfBytes(data) }

// PhotoKeys lists what is stored of a job's photos.
func (s *Store) PhotoKeys(jobID string) (keys []string) {
	_ = s.db.View(func(tx *bbolt.Tx) error {
		if all := tx.Bucket(bucketPhotos); all != nil && all.Bucket([]byte(jobID)) != nil {
			return all.Bucket([]byte(jobID)).ForEach(func(key, _ []byte) error {
				keys = append(keys, string(key))
				return nil
			})
		}
		return nil
	})
	return keys
}

// SpoilPhoto changes a byte of a stored photo.
func (s *Store) SpoilPhoto(jobID, hash string) {
	_ = s.db.Update(func(tx *bbolt.Tx) error {
		_, data, err := photoIn(tx, jobID, hash)
		if err != nil {
			return err
		}
		other := append([]byte(nil), data...)
		other[len(other)/2] ^= 1
		return s.keepPhoto(tx, jobID, keyWhole+hash, other)
	})
}
