package sheet

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/unicode/norm"
)

// TextOf is what a file says, whatever encoding it was saved in.
func TextOf(data []byte) string {
	text, _ := decode(data)
	return text
}

// decode turns bytes into text and names the encoding: a byte-order mark decides, then the pattern of zero bytes that
// UTF-16 leaves in Latin text, then valid UTF-8, else Windows-1252.
func decode(data []byte) (text, encoding string) {
	switch {
	case bytes.HasPrefix(data, []byte("\xEF\xBB\xBF")):
		return decodeUTF8(data[3:])
	case bytes.HasPrefix(data, []byte("\xFF\xFE")):
		return decodeUTF16(data[2:], binary.LittleEndian), "UTF-16"
	case bytes.HasPrefix(data, []byte("\xFE\xFF")):
		return decodeUTF16(data[2:], binary.BigEndian), "UTF-16"
	}
	if even, odd := zeroShares(data); even > 0.4 && odd < 0.1 {
		return decodeUTF16(data, binary.BigEndian), "UTF-16"
	} else if odd > 0.4 && even < 0.1 {
		return decodeUTF16(data, binary.LittleEndian), "UTF-16"
	}
	return decodeUTF8(data)
}

func decodeUTF8(data []byte) (text, encoding string) {
	if utf8.Valid(data) {
		return string(data), "UTF-8"
	}
	decoded, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil {
		return strings.ToValidUTF8(string(data), "\uFFFD"), "UTF-8"
	}
	return string(decoded), "Windows-1252"
}

func decodeUTF16(data []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return string(utf16.Decode(units))
}

// zeroShares is the share of zero bytes at even and at odd places of the first 4 KiB.
func zeroShares(data []byte) (even, odd float64) {
	data = data[:min(len(data), 4096)&^1]
	if len(data) == 0 {
		return 0, 0
	}
	for i, b := range data {
		switch {
		case b != 0:
		case i%2 == 0:
			even++
		default:
			odd++
		}
	}
	half := float64(len(data) / 2)
	return even / half, odd / half
}

// Key is a name as it is compared: without case, diacritics, spaces, "_" and "-".
func Key(name string) string {
	if key, ok := plainKey(name); ok {
		return key
	}
	var key strings.Builder
	for _, r := range norm.NFD.String(tidy(name)) {
		switch {
		case unicode.Is(unicode.Mn, r), unicode.IsSpace(r), r == '_', r == '-':
		default:
			key.WriteRune(unicode.ToLower(r))
		}
	}
	return key.String()
}

// plainKey is Key for names of ASCII letters, which nearly all are.
func plainKey(name string) (key string, ok bool) {
	out := make([]byte, 0, len(name))
	for i := 0; i < len(name); i++ {
		switch b := name[i]; {
		case b >= utf8.RuneSelf:
			return "", false
		case b == ' ' || b == '_' || b == '-' || b >= '\t' && b <= '\r':
		case b >= 'A' && b <= 'Z':
			out = append(out, b+'a'-'A')
		default:
			out = append(out, b)
		}
	}
	return string(out), true
}

// tidy drops invisible characters, writes every no-break space and hyphen as a plain one, and trims.
func tidy(text string) string { return strings.TrimSpace(visible(text)) }

var invisible = strings.NewReplacer("\u200B", "", "\u200C", "", "\u200D", "", "\u2060", "", "\uFEFF", "", "\u00AD", "",
	"\u2011", "-", "\u00A0", " ", "\u202F", " ", "\u2007", " ", "\u2009", " ")

func visible(text string) string {
	for _, r := range text {
		if r > 0x7F {
			return invisible.Replace(text)
		}
	}
	return text
}
