//! A client of the real binary over its standard input and output.
//!
//! Every message that the server sends has to be read by the test: one that is left over fails it.
//! It must not know what the messages are about.

use std::collections::VecDeque;
use std::ffi::OsStr;
use std::io::{BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};
use std::sync::mpsc::{Receiver, RecvTimeoutError, channel};
use std::thread;
use std::time::{Duration, Instant};

use serde_json::{Value, json};

use crate::binary::bicinium;
use crate::frame;
use crate::vitals::Vitals;

/// Long enough for the slowest machine; nothing is measured by it.
const PATIENCE: Duration = Duration::from_secs(120);

/// A client with a server of its own.
pub struct Client {
    server: Child,
    input: Option<ChildStdin>,
    output: Option<ChildStdout>,
    incoming: Option<Receiver<Value>>,
    unread: VecDeque<Value>,
    last_id: i64,
    has_ended: bool,
}

impl Client {
    /// Starts a server that has been told nothing yet, and listens to it.
    pub fn start() -> Self {
        let mut client = Client::start_deaf();
        client.listen();
        client
    }

    /// Starts a server without reading what it writes.
    pub fn start_deaf() -> Self {
        Client::start_deaf_with(&[])
    }

    /// Starts a server with further arguments, and listens to it.
    pub fn start_with(arguments: &[&OsStr]) -> Self {
        let mut client = Client::start_deaf_with(arguments);
        client.listen();
        client
    }

    /// Starts the server of a binary that was built by somebody else, and listens to it.
    pub fn start_binary(binary: &Path) -> Self {
        let mut client = Client::of(binary, &[]);
        client.listen();
        client
    }

    fn start_deaf_with(arguments: &[&OsStr]) -> Self {
        Client::of(bicinium(), arguments)
    }

    fn of(binary: &Path, arguments: &[&OsStr]) -> Self {
        let mut server = Command::new(binary)
            .args(["lsp", "--stdio"])
            .args(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .spawn()
            .expect("the binary runs");
        let (input, output) = (server.stdin.take(), server.stdout.take());
        let (incoming, unread) = (None, VecDeque::new());
        Client { server, input, output, incoming, unread, last_id: 0, has_ended: false }
    }

    /// Starts a server for a client that can do this, up to the end of the handshake.
    pub fn initialized(capabilities: &Value) -> Self {
        let mut client = Client::start();
        client.initialize(capabilities);
        client
    }

    /// Goes through the handshake and returns what the server offers.
    pub fn initialize(&mut self, capabilities: &Value) -> Value {
        let params = json!({"processId": null, "rootUri": null, "capabilities": capabilities});
        let offer = self.request("initialize", &params);
        self.notify("initialized", &json!({}));
        offer
    }

    /// How much memory the server takes, in kB.
    pub fn memory(&self) -> u64 {
        self.vitals().memory
    }

    /// What the server takes of the machine.
    pub fn vitals(&self) -> Vitals {
        Vitals::of(self.server.id())
    }

    /// Waits so long at most for the server to say something, and returns all that nobody has read.
    pub fn overheard(&mut self, patience: Duration) -> Vec<Value> {
        if let Some(incoming) = &self.incoming {
            self.unread.extend(incoming.recv_timeout(patience));
            self.unread.extend(incoming.try_iter());
        }
        self.unread.drain(..).collect()
    }

    /// Begins to read what the server writes.
    pub fn listen(&mut self) {
        let mut output = BufReader::new(self.output.take().expect("listening begins once"));
        let (sender, incoming) = channel();
        thread::spawn(move || {
            while let Some(message) = frame::read(&mut output) {
                if sender.send(message).is_err() {
                    return;
                }
            }
        });
        self.incoming = Some(incoming);
    }

    /// Closes the end of the pipe to which the server writes.
    pub fn go_deaf(&mut self) {
        self.output = None;
    }

    /// Closes the pipe from which the server reads.
    pub fn hang_up(&mut self) {
        self.input = None;
    }

    /// Sends bytes as they are.
    pub fn send_raw(&mut self, bytes: &[u8]) {
        let input = self.input.as_mut().expect("the line is open");
        input.write_all(bytes).and_then(|()| input.flush()).expect("the server reads");
    }

    /// Sends a message.
    pub fn send(&mut self, message: &Value) {
        let input = self.input.as_mut().expect("the line is open");
        frame::write(input, message).expect("the server reads");
    }

    /// Sends a notification.
    pub fn notify(&mut self, method: &str, params: &Value) {
        self.send(&json!({"jsonrpc": "2.0", "method": method, "params": params}));
    }

    /// Sends a request without waiting for the answer, and returns its id.
    pub fn ask(&mut self, method: &str, params: &Value) -> i64 {
        self.last_id += 1;
        let id = self.last_id;
        self.send(&json!({"jsonrpc": "2.0", "id": id, "method": method, "params": params}));
        id
    }

    /// Waits for the response to a request; other messages are kept for later.
    pub fn answer(&mut self, id: impl Into<Value>) -> Value {
        let id = id.into();
        self.wait_for(|message| message.get("method").is_none() && message["id"] == id)
    }

    /// Sends a request and returns its result.
    ///
    /// # Panics
    /// When the server answers with an error.
    pub fn request(&mut self, method: &str, params: &Value) -> Value {
        let id = self.ask(method, params);
        let mut answer = self.answer(id);
        assert!(answer.get("error").is_none(), "{method} was refused: {answer}");
        answer["result"].take()
    }

    /// Sends a request and returns the code of the error that answers it.
    pub fn refusal(&mut self, method: &str, params: &Value) -> i64 {
        let id = self.ask(method, params);
        let answer = self.answer(id);
        answer["error"]["code"].as_i64().unwrap_or_else(|| panic!("{method} was not refused"))
    }

    /// Waits for a notification and returns its parameters; other messages are kept for later.
    pub fn notification(&mut self, method: &str) -> Value {
        self.wait_for(|message| message["method"] == method)["params"].take()
    }

    /// Waits for a message that is like this; those before it are kept for later.
    pub fn wait_for(&mut self, is_meant: impl Fn(&Value) -> bool) -> Value {
        if let Some(at) = self.unread.iter().position(&is_meant) {
            return self.unread.remove(at).expect("a position that was found");
        }
        loop {
            let message =
                self.receive().expect("the server ended before it said what was expected");
            if is_meant(&message) {
                return message;
            }
            self.unread.push_back(message);
        }
    }

    /// Leaves by the book.
    ///
    /// # Panics
    /// When the server does not end well, or has said something that nobody has read.
    pub fn end(mut self) {
        assert_eq!(self.request("shutdown", &Value::Null), Value::Null);
        self.send(&json!({"jsonrpc": "2.0", "method": "exit"}));
        assert_eq!(self.exit_code(), 0);
    }

    /// Ends the server at once, as a crash would, and forgets what it has said.
    pub fn kill(mut self) {
        self.has_ended = true;
        self.server.kill().expect("the server can be ended");
    }

    /// Waits until the server has ended by itself, and returns its exit code.
    ///
    /// # Panics
    /// When the server does not end, or has said something that nobody has read.
    pub fn exit_code(mut self) -> i32 {
        self.has_ended = true;
        let deadline = Instant::now() + PATIENCE;
        let status = loop {
            if let Some(status) = self.server.try_wait().expect("the server can be asked after") {
                break status;
            }
            assert!(Instant::now() < deadline, "the server does not end");
            thread::sleep(Duration::from_millis(5));
        };
        while let Some(message) = self.receive() {
            self.unread.push_back(message);
        }
        let unread = self.unread.len();
        assert!(unread == 0, "nobody has read {unread} messages, the first {}", self.unread[0]);
        status.code().expect("the server ends by itself")
    }

    /// The next message; `None` once the server has closed the line.
    fn receive(&self) -> Option<Value> {
        match self.incoming.as_ref()?.recv_timeout(PATIENCE) {
            Ok(message) => Some(message),
            Err(RecvTimeoutError::Disconnected) => None,
            Err(RecvTimeoutError::Timeout) => panic!("the server says nothing"),
        }
    }
}

impl Drop for Client {
    fn drop(&mut self) {
        // Fails only for a server that has ended already.
        let _ = self.server.kill();
        let _ = self.server.wait();
        assert!(self.has_ended || thread::panicking(), "the test did not end its session");
    }
}
