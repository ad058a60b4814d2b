package page

import (
	"bytes"
	"encoding/base64"
	"path"
	"strconv"
	"strings"
)

// maxImage bounds one embedded image.
const maxImage = 4 << 20

// imageTypes are what is embedded, by the bytes that they begin with. A drawing
// inside an img element runs no script and fetches nothing.
var imageTypes = []struct{ begins, name string }{
	{"\x89PNG\r\n\x1a\n", "image/png"}, {"\xff\xd8\xff", "image/jpeg"}, {"GIF8", "image/gif"}, {"RIFF", "image/webp"},
}

// imageType is what kind of image some bytes are, empty for none.
func imageType(name string, data []byte) string {
	for _, t := range imageTypes {
		if bytes.HasPrefix(data, []byte(t.begins)) && (t.begins != "RIFF" || len(data) > 12 && string(data[8:12]) == "WEBP") {
			return t.name
		}
	}
	if strings.EqualFold(path.Ext(name), ".svg") && bytes.Contains(data[:min(len(data), 1000)], []byte("<svg")) {
		return "image/svg+xml"
	}
	return ""
}

// read is an image of the folder as a data address.
func (m *maker) read(src string) (string, bool) {
	if m.Image == nil || src == "" || strings.HasPrefix(src, "/") || strings.Contains(src, ":") {
		return "", false
	}
	data, ok := m.Image(unescaped(src))
	kind := imageType(src, data)
	if !ok || len(data) > maxImage || kind == "" {
		return "", false
	}
	return "data:" + kind + ";base64," + base64.StdEncoding.EncodeToString(data), true
}

// unescaped undoes the percent signs of a link to a file.
func unescaped(href string) string {
	var out strings.Builder
	for i := 0; i < len(href); i++ {
		if href[i] == '%' && i+2 < len(href) {
			if b, err := strconv.ParseUint(href[i+1:i+3], 16, 8); err == nil {
				out.WriteByte(byte(b))
				i += 2
				continue
			}
		}
		out.WriteByte(href[i])
	}
	return out.String()
}
