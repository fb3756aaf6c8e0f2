package serve

import (
	"fmt"
	"io"
	"mime/multipart"
)

// fileText reads an uploaded file as text.
func fileText(header *multipart.FileHeader) (string, error) {
	f, err := header.Open()
	if err != nil {
		return "", fmt.Errorf("open the uploaded file: %w", err)
	}
	defer f.Close()
	text, err := io.ReadAll(f)
	if err != nil {
		return "", fmt.Errorf("read the uploaded file: %w", err)
	}
	return string(text), nil
}
