//! x
#[path="papers/days.rs"] mod papers_days;
use maxday::papers::{Paper, documents::{Order, make}};
use maxday::sheets::Audience;
use papers_days::*;
#[test]
fn dump() {
    let out = std::path::Path::new("/tmp/papers_out");
    let days = [("max", max_day()), ("meet", meet()), ("big", big(70,3,&["power-clean","back-squat","bench-press"])),
      ("one", big(1,3,&["deadlift"])), ("four", big(26,4,&["power-clean","back-squat","bench-press","push-jerk"])), ("six", big(8,6,&["front-squat"])),
      ("empty", big(0,3,&["snatch","clean-and-jerk"]))];
    for (name, told) in &days {
        for (size, s) in [(Paper::Letter,"letter"),(Paper::A4,"a4")] {
            for (aud, a) in [(Audience::Private,"private"),(Audience::Posted,"posted")] {
                let t = std::time::Instant::now();
                for m in make(told.facts(), &Order{size, audience: aud, made: NOW, only: None}).unwrap() {
                    let dir = out.join(format!("{name}-{s}-{a}"));
                    std::fs::create_dir_all(&dir).unwrap();
                    std::fs::write(dir.join(format!("{}.pdf", m.name)), &m.pdf).unwrap();
                }
                println!("{name} {s} {a} {:?}", t.elapsed());
            }
        }
    }
}
