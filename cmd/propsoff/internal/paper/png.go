package paper

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/png"
	"io"
	"math"

	"propsoff.example/cmd/propsoff/internal/ink/raster"
)

// Where the first chunk of a PNG file, the 13 bytes of IHDR, ends: after the signature, and its length, name and check
// sum (PNG, third edition, 5.2 and 5.3).
const afterHeader = 8 + 4 + 4 + 13 + 4

// png writes the page as a picture, one pixel of the picture to one of the page. The picture says how large it is meant
// to be (chunk pHYs, 11.3.4.3), so that it prints at its true size.
func (d *Print) png(w io.Writer) error {
	m, err := raster.Image(d.Page)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		return err
	}
	metre := uint32(math.Round(d.DPI / inch * 1000))
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, metre)
	chunk = binary.BigEndian.AppendUint32(chunk, metre)
	chunk = append(chunk, 1) // the unit is the metre
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	for _, part := range [][]byte{b.Bytes()[:afterHeader], chunk, b.Bytes()[afterHeader:]} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}
