package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/flate"
	"compress/gzip"
	"io"
	"time"
)

// tarball packs a tree: sorted, of one age, owned by root.
func tarball(t tree, at time.Time) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	w := tar.NewWriter(z)
	for _, f := range t.sorted() {
		h := &tar.Header{Typeflag: tar.TypeReg, Name: f.path, Mode: int64(f.mode), Size: int64(len(f.data)), ModTime: at, Uname: "root", Gname: "root", Format: tar.FormatPAX}
		if err := w.WriteHeader(h); err != nil {
			return nil, err
		}
		if _, err := w.Write(f.data); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	err = z.Close()
	return b.Bytes(), err
}

// zipped packs a tree for systems where a zip opens by a click: sorted, of one age.
func zipped(t tree, at time.Time) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	w.RegisterCompressor(zip.Deflate, func(to io.Writer) (io.WriteCloser, error) { return flate.NewWriter(to, flate.BestCompression) })
	for _, f := range t.sorted() {
		h := &zip.FileHeader{Name: f.path, Method: zip.Deflate, Modified: at.UTC()}
		h.SetMode(f.mode)
		to, err := w.CreateHeader(h)
		if err != nil {
			return nil, err
		}
		if _, err := to.Write(f.data); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return b.Bytes(), err
}
