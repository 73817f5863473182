use serde_json::{Value, json};
use std::fs;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::thread;
use std::time::Duration;
use tempfile::TempDir;

/// Long enough for a busy machine to start a browser or to go through a few bars.
const LONG: Duration = Duration::from_mins(1);

/// A Chromium of its own, with a page in it, that ends with the test.
pub struct Browser {
    child: Child,
    orders: ChildStdin,
    answers: Receiver<Value>,
    number: u64,
    session: String,
    folder: TempDir,
    /// What the page asked for from anywhere, and what it complained of.
    asked: Vec<String>,
    complaints: Vec<String>,
    features: Vec<Value>,
    /// The scripts' contexts of the page and of the frames in it: the frame, and its number.
    contexts: Vec<(String, u64)>,
}

impl Browser {
    /// Starts the browser, its page as wide and high as a screen of so many CSS pixels; a small one is a phone's.
    pub fn start(size: [u32; 2]) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let browser = std::env::var("BELLPAD_CHROMIUM").unwrap_or_else(|_| "chromium".to_owned());
        // The protocol speaks over the descriptors 3 and 4: the shell makes them of standard input and output.
        let mut child = Command::new("sh")
            .arg("-c")
            .arg(r#"exec "$0" "$@" 3<&0 4>&1 </dev/null >/dev/null"#)
            .arg(&browser)
            .args([
                "--headless=new",
                "--no-sandbox",
                "--disable-gpu",
                "--no-first-run",
                "--remote-debugging-pipe",
            ])
            .args(["--disable-background-networking", "--disable-component-update", "--mute-audio"])
            .arg(format!("--user-data-dir={}", folder.path().join("profile").display()))
            .env("HOME", folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .expect("a shell");
        let orders = child.stdin.take().unwrap();
        let mut said = BufReader::new(child.stdout.take().unwrap());
        let (sender, answers) = channel();
        thread::spawn(move || {
            let mut message = Vec::new();
            while said.read_until(0, &mut message).is_ok_and(|length| length > 0) {
                message.pop();
                if sender.send(serde_json::from_slice(&message).unwrap()).is_err() {
                    break;
                }
                message.clear();
            }
        });
        let mut browser = Self {
            child,
            orders,
            answers,
            number: 0,
            session: String::new(),
            folder,
            asked: Vec::new(),
            complaints: Vec::new(),
            features: Vec::new(),
            contexts: Vec::new(),
        };
        let target = browser.call("Target.createTarget", &json!({"url": "about:blank"}));
        let session =
            browser.call("Target.attachToTarget", &json!({"targetId": target["targetId"], "flatten": true}));
        session["sessionId"].as_str().unwrap().clone_into(&mut browser.session);
        for part in ["Page", "Runtime", "Log", "Network"] {
            browser.call(&format!("{part}.enable"), &json!({}));
        }
        let [width, height] = size;
        let is_phone = width < 800;
        browser.call(
            "Emulation.setDeviceMetricsOverride",
            &json!({"width": width, "height": height, "deviceScaleFactor": if is_phone { 2 } else { 1 }, "mobile": is_phone}),
        );
        browser.call("Emulation.setTouchEmulationEnabled", &json!({"enabled": is_phone}));
        browser
    }

    /// A folder that goes with the browser.
    pub fn folder(&self) -> &Path {
        self.folder.path()
    }

    /// Gives an order of the `DevTools` protocol and waits for its answer.
    #[track_caller]
    fn call(&mut self, method: &str, parameters: &Value) -> Value {
        self.number += 1;
        let mut order = json!({"id": self.number, "method": method, "params": parameters});
        if !self.session.is_empty() {
            order["sessionId"] = json!(self.session);
        }
        let mut bytes = order.to_string().into_bytes();
        bytes.push(0);
        self.orders.write_all(&bytes).expect("the browser runs; it comes with the package chromium");
        self.wait(|message| message["id"] == order["id"], method)["result"].clone()
    }

    /// Waits for a message, and notes on the way what the page asks for and complains of.
    #[track_caller]
    fn wait(&mut self, wanted: impl Fn(&Value) -> bool, what: &str) -> Value {
        loop {
            let message = self.answers.recv_timeout(LONG).unwrap_or_else(|error| {
                panic!("{what}: the browser does not answer ({error}); it comes with the package chromium")
            });
            assert!(message.get("error").is_none(), "{what}: {message}");
            let told = &message["params"];
            match message["method"].as_str() {
                Some("Network.requestWillBeSent") => {
                    self.asked.push(told["request"]["url"].as_str().unwrap().to_owned());
                }
                Some("Runtime.exceptionThrown") => self.complaints.push(told.to_string()),
                Some("Log.entryAdded") => self.complaints.push(told["entry"].to_string()),
                Some("Runtime.consoleAPICalled") => self.complaints.push(told["args"].to_string()),
                Some("Runtime.executionContextCreated") => {
                    let context = &told["context"];
                    let frame = context["auxData"]["frameId"].as_str().unwrap_or_default();
                    self.contexts.push((frame.to_owned(), context["id"].as_u64().unwrap()));
                }
                _ => {}
            }
            if wanted(&message) {
                return message;
            }
        }
    }

    /// What the person who reads the page prefers, from the next page on.
    pub fn prefer(&mut self, feature: &str, value: &str) {
        self.features.push(json!({"name": feature, "value": value}));
        let features = self.features.clone();
        self.call("Emulation.setEmulatedMedia", &json!({"features": features}));
    }

    /// Runs a script in every page before its own, from the next page on.
    pub fn run_first(&mut self, script: &str) {
        self.call("Page.addScriptToEvaluateOnNewDocument", &json!({"source": script}));
    }

    /// Opens a file and waits until it is there.
    #[track_caller]
    pub fn open(&mut self, page: &Path) {
        self.go_to(page);
        assert_eq!(self.run("typeof bellpad.pose"), json!("function"));
    }

    /// Opens a file that is no practice page, but may have one in a frame.
    #[track_caller]
    pub fn go_to(&mut self, page: &Path) {
        self.call("Page.navigate", &json!({"url": format!("file://{}", page.display())}));
        self.wait(|message| message["method"] == "Page.loadEventFired", "opening the page");
    }

    /// Runs a script in the page, waits for what it promises, and gives that.
    #[track_caller]
    pub fn run(&mut self, script: &str) -> Value {
        self.run_in(None, script)
    }

    /// Runs a script in the first frame of the page.
    #[track_caller]
    pub fn run_in_frame(&mut self, script: &str) -> Value {
        let tree = self.call("Page.getFrameTree", &json!({}));
        let frame = tree["frameTree"]["childFrames"][0]["frame"]["id"].as_str().expect("a frame");
        let context = self.contexts.iter().rev().find(|(of, _)| of == frame);
        let context = context.map(|(_, context)| *context).expect("a script in the frame");
        self.run_in(Some(context), script)
    }

    #[track_caller]
    fn run_in(&mut self, context: Option<u64>, script: &str) -> Value {
        let mut asked = json!({"expression": script, "returnByValue": true, "awaitPromise": true});
        if let Some(context) = context {
            asked["contextId"] = json!(context);
        }
        let answer = self.call("Runtime.evaluate", &asked);
        assert!(answer.get("exceptionDetails").is_none(), "{script}: {answer}");
        answer["result"]["value"].clone()
    }

    /// Presses a key.
    #[track_caller]
    pub fn key(&mut self, key: &str) {
        for kind in ["keyDown", "keyUp"] {
            self.call("Input.dispatchKeyEvent", &json!({"type": kind, "key": key}));
        }
    }

    /// Presses a key with Shift held.
    pub fn shift_key(&mut self, key: &str) {
        for kind in ["keyDown", "keyUp"] {
            self.call("Input.dispatchKeyEvent", &json!({"type": kind, "key": key, "modifiers": 8}));
        }
    }

    /// Touches the middle of a part of the page.
    #[track_caller]
    pub fn tap(&mut self, part: &str) {
        let place = self.run(&format!(
            "(() => {{ const part = document.querySelector('{part}'); part.scrollIntoView({{block: 'center'}}); \
             const box = part.getBoundingClientRect(); return [box.left + box.width / 2, box.top + box.height / 2]; }})()"
        ));
        self.tap_at([place[0].as_f64().unwrap(), place[1].as_f64().unwrap()]);
    }

    /// Touches a place of the page.
    #[track_caller]
    pub fn tap_at(&mut self, [x, y]: [f64; 2]) {
        self.call(
            "Input.dispatchTouchEvent",
            &json!({"type": "touchStart", "touchPoints": [{"x": x, "y": y}]}),
        );
        self.call("Input.dispatchTouchEvent", &json!({"type": "touchEnd", "touchPoints": []}));
        // The click of a touch comes a little later.
        thread::sleep(Duration::from_millis(100));
    }

    /// Keeps what the browser shows, if the person running the tests wants it kept.
    pub fn keep(&mut self, name: &str) {
        if let Some(folder) = std::env::var_os("BELLPAD_SCREENSHOTS") {
            fs::create_dir_all(&folder).unwrap();
            let picture = self.call("Page.captureScreenshot", &json!({}));
            fs::write(
                Path::new(&folder).join(format!("{name}.png")),
                from_base64(picture["data"].as_str().unwrap()),
            )
            .unwrap();
        }
    }

    /// Nothing was complained of.
    #[track_caller]
    pub fn assert_content(&mut self) {
        self.run("new Promise((done) => setTimeout(done, 50))");
        assert_eq!(self.complaints, Vec::<String>::new());
    }

    /// The page asked for nothing but itself and complained of nothing.
    #[track_caller]
    pub fn assert_quiet(&mut self) {
        self.run("new Promise((done) => setTimeout(done, 50))");
        assert!(
            self.asked.iter().all(|asked| asked.starts_with("file://") && asked.ends_with("/page.html")),
            "{:?}",
            self.asked
        );
        assert_eq!(self.asked.len(), 1, "the page itself, once: {:?}", self.asked);
        assert_eq!(self.complaints, Vec::<String>::new());
        assert_eq!(
            self.run("performance.getEntriesByType('resource').map((entry) => entry.name)"),
            json!([])
        );
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// RFC 4648, section 4.
fn from_base64(text: &str) -> Vec<u8> {
    const DIGITS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    let (mut bits, mut held, mut bytes) = (0_u32, 0, Vec::new());
    for letter in text.chars().filter(|letter| *letter != '=') {
        bits = bits << 6 | DIGITS.find(letter).expect("base 64") as u32;
        held += 6;
        if held >= 8 {
            held -= 8;
            bytes.push((bits >> held) as u8);
        }
    }
    bytes
}
