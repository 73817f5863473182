//! A photograph of a car park with chalk on it, laid under the floor with a real mouse: set true by four crosses, and a dancer
//! dragged onto a fifth.

use super::camera::Camera;
use super::expected::Expected;
use super::hands::Hands;
use super::paths::empty;
use super::screen::Screen;
use super::sitting::Sitting;
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

/// The middle of the chalk that the screen shows within 30 cm of a place on the floor, pixels: what is light and has no hue.
fn chalk_seen(screen: &Screen, [x, y]: [i32; 2], metre: f64) -> Option<[f64; 2]> {
    let reach = (0.3 * metre) as i32;
    let mut sum = [0.0; 3];
    for right in x - reach..=x + reach {
        for down in y - reach..=y + reach {
            let Some(pixel) = screen.at([right as f32, down as f32]) else { continue };
            let (least, most) = (*pixel.iter().min().unwrap(), *pixel.iter().max().unwrap());
            if least > 150 && most - least < 30 {
                sum = [sum[0] + f64::from(right), sum[1] + f64::from(down), sum[2] + 1.0];
            }
        }
    }
    (sum[2] > 20.0).then(|| [sum[0] / sum[2], sum[1] / sum[2]])
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

    // Stronger, so that the chalk is told from the floor; and its flags are put away.
    hands.keys(&["p"]);
    let [zero, one] = [hands.twin.floor(0.0, 0.0), hands.twin.floor(1.0, 0.0)];
    let metre = f64::from(one[0] - zero[0]);
    // Where the screen itself shows the fifth cross, a dancer is dragged to.
    let screen = hands.sitting.still();
    let seen = chalk_seen(&screen, hands.twin.floor(FIFTH[0], FIFTH[1]), metre).expect("chalk on the screen");
    let to = seen.map(|at| at.round() as i32);
    let mirrored = hands.twin.floor(-FIFTH[0], FIFTH[1]);
    assert_eq!(chalk_seen(&screen, mirrored, metre), None, "where it would be in a mirror");
    let from = hands.twin.expected().place(1);
    hands.pull(from, to);
    hands.let_go_with_alt(to);
    hands.see();
    hands.sitting.keep("photograph, a dancer on a cross");
    hands.save();
    let [x, y, _] = hands.places("2:1")[0];
    let off = (x - FIFTH[0]).hypot(y - FIFTH[1]);
    println!("{:.1} cm from the cross", off * 100.0);
    assert!(off < 0.03, "{x} {y} is {off} m from the cross");

    // Another window on the file shows it as it lay.
    let again = Sitting::open(Some(&hands.file()));
    let expected = Expected::of_file(&hands.file(), None);
    again.see_dancers(&expected);
    let metre = 1.0 / expected.metres([1, 0])[0];
    let [left, top] = expected.place(1).map(f64::from);
    let there =
        [left + (FIFTH[0] - SPOTS[0][0]) * metre, top - (FIFTH[1] - SPOTS[0][1]) * metre].map(f64::round);
    again.rest();
    let seen = chalk_seen(&again.still(), there.map(|at| at as i32), metre).expect("chalk in another window");
    again.keep("photograph, opened again");
    let off = (seen[0] - there[0]).hypot(seen[1] - there[1]) / metre;
    assert!(off < 0.03, "{off} m from the cross when it is opened again");
    drop(again);
    // It is laid, four marks and four flags are moved, it is made stronger, and a dancer is moved.
    hands.undo_all(11);
}
