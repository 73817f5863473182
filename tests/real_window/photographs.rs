//! A photograph of a car park with chalk on it, laid under the floor with a real mouse: set true by four crosses, and a dancer
//! dragged onto a fifth.

use super::camera::Camera;
use super::hands::Hands;
use super::paths::empty;
use bellpad::desk::{Ask, Desk, FileAsk, KeepAsk};
use bellpad::picture::Flat;
use bellpad::store::Recent;
use std::io::Cursor;

/// The crosses: of four spots of the set, and one where somebody is to go.
const SPOTS: [[f64; 2]; 4] = [[-1.2, 1.8], [1.2, 1.8], [1.2, -1.8], [-1.2, -1.8]];
const FIFTH: [f64; 2] = [0.43, 0.67];

/// Chalk on a car park, where a cross is 30 cm wide and 5 cm thick.
fn chalk([x, y]: [f64; 2]) -> f64 {
    let on = |[cross_x, cross_y]: &[f64; 2]| {
        let (right, up) = ((x - cross_x).abs(), (y - cross_y).abs());
        (right < 0.15 && up < 0.025) || (up < 0.15 && right < 0.025)
    };
    if SPOTS.iter().chain([&FIFTH]).any(on) { 0.95 } else { 0.25 }
}

/// The middle of what is light within 30 cm of a place, metres.
fn lightest(flat: &Flat, [x, y]: [f64; 2]) -> [f64; 2] {
    let [x0, y0, x1, y1] = flat.bounds;
    let (wide, high) = flat.pixels.dimensions();
    let mut sum = [0.0; 3];
    for (column, row, pixel) in flat.pixels.enumerate_pixels() {
        let there_x = x0 + (f64::from(column) + 0.5) / f64::from(wide) * (x1 - x0);
        let there_y = y1 - (f64::from(row) + 0.5) / f64::from(high) * (y1 - y0);
        if (there_x - x).hypot(there_y - y) < 0.3 && pixel.0[0] > 150 && pixel.0[3] == 255 {
            sum = [sum[0] + there_x, sum[1] + there_y, sum[2] + 1.0];
        }
    }
    assert!(sum[2] > 20.0, "no chalk is seen there");
    [sum[0] / sum[2], sum[1] / sum[2]]
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_dancer_is_dragged_onto_a_chalk_cross_of_a_photograph() {
    let camera = Camera::looking([1.0, -6.5, 4.0], [0.0, -0.2], 900.0, [1400, 1000]);
    let mut png = Cursor::new(Vec::new());
    camera.take(chalk).write_to(&mut png, image::ImageFormat::Png).unwrap();
    let mut hands = Hands::on(&empty());
    hands.put_beside("car park.png", png.get_ref());
    hands.keys(&["shift+Right"]);
    hands.choose("File", "Photograph…");
    hands.fill_in_beside("car park.png");
    hands.sitting.keep("photograph, its marks");

    // The marks to the crosses of the picture: from two of them follows where in the dialog each pixel is.
    let mark = |number: usize| format!("Mark {number} on the picture");
    let [one, three] = [hands.twin.find(&mark(1)), hands.twin.find(&mark(3))];
    let scale = f64::from(three[0] - one[0]) / (0.6 * 1400.0);
    for (index, spot) in SPOTS.iter().enumerate() {
        let [across, down] = camera.pixel(*spot);
        let to = [
            one[0] + ((across - 280.0) * scale).round() as i32,
            one[1] + ((down - 200.0) * scale).round() as i32,
        ];
        hands.drag(hands.twin.find(&mark(index + 1)), to);
    }
    hands.sitting.keep("photograph, marks on the crosses");
    hands.click("Close");

    // The flags to the spots, on which they catch.
    for (index, [x, y]) in SPOTS.iter().enumerate() {
        let flag = hands.twin.find(&format!("Mark {} of car park.png on the floor", index + 1));
        let [right, down] = hands.twin.floor(*x, *y);
        hands.drag(flag, [right + 21, down - 21]);
        let own = &hands.twin.desk().dance().underlay[0].marks[index];
        assert_eq!([own.x, own.y], [*x, *y]);
    }
    hands.see();
    hands.sitting.keep("photograph, set true");
    let saved = hands.save();
    assert_eq!(saved["underlay"][0]["path"], "car park.png");

    // Where the fifth cross is seen in what lies there, a dancer is dragged to.
    let seen = {
        let here = hands.twin.desk().photographs_here();
        lightest(here[0].flat.expect("it lies there"), FIFTH)
    };
    let (from, to) = (hands.twin.expected().place(1), hands.twin.floor(seen[0], seen[1]));
    hands.pull(from, to);
    hands.let_go_with_alt(to);
    hands.see();
    hands.sitting.keep("photograph, a dancer on a cross");
    hands.save();
    let [x, y, _] = hands.places("2:1")[0];
    let off = (x - FIFTH[0]).hypot(y - FIFTH[1]);
    println!("{:.1} cm from the cross", off * 100.0);
    assert!(off < 0.03, "{x} {y} is {off} m from the cross");

    // Opened again it lies as it lay.
    let mut again = Desk::with_sample(Recent::default());
    again.apply(Ask::File(FileAsk::Open(hands.file())));
    again.apply(Ask::Keep(KeepAsk::CatchUp));
    let here = again.photographs_here();
    let there = lightest(here[0].flat.expect("it is found again"), FIFTH);
    assert!((there[0] - seen[0]).hypot(there[1] - seen[1]) < 1e-6, "{there:?}");
    // It is laid, four marks and four flags are moved, and a dancer.
    hands.undo_all(10);
}
