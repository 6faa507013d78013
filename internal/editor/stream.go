package editor

import (
	"context"
	"errors"
	"io"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
)

// codec reads and writes what messages carry.
type codec struct{}

func (codec) Marshal(v any) ([]byte, error) {
	if raw, ok := v.(jsonrpc2.RawMessage); ok && raw != nil {
		return raw, nil
	}
	return protocol.Marshal(v)
}

func (codec) Unmarshal(data []byte, v any) error { return protocol.Unmarshal(data, v) }

// A stream is the messages between editor and server. A message that is no JSON
// is answered with an error and passed over, where it would else end the
// connection.
type stream struct{ jsonrpc2.Stream }

func newStream(in io.Reader, out io.Writer) jsonrpc2.Stream {
	return stream{jsonrpc2.NewHeaderStream(pipes{in, out})}
}

func (s stream) Read(ctx context.Context) (jsonrpc2.Message, int64, error) {
	for {
		m, n, err := s.Stream.Read(ctx)
		var wrong *jsonrpc2.Error
		if !errors.As(err, &wrong) {
			return m, n, err
		}
		if _, err := s.Write(ctx, jsonrpc2.NewResponse(jsonrpc2.ID{}, nil, wrong)); err != nil {
			return nil, 0, err
		}
	}
}

// pipes are the two ways of a connection. They belong to whoever made them, so
// closing the connection leaves them open.
type pipes struct {
	io.Reader
	io.Writer
}

func (pipes) Close() error { return nil }
